package recipe

// Merge lays the maker's own workshop over the built-in one. Scales, vessels
// and moulds that the maker lists replace the built-in ones, because they are
// what stands in the room. A material replaces the built-in one of its name,
// whole, and others are added. Neither workshop is changed.
func Merge(builtin, own Workshop) Workshop {
	merged := builtin
	if own.Name != "" {
		merged.Name = own.Name
	}
	if len(own.Scales) > 0 {
		merged.Scales = own.Scales
	}
	if len(own.Vessels) > 0 {
		merged.Vessels = own.Vessels
	}
	if len(own.Moulds) > 0 {
		merged.Moulds = own.Moulds
	}
	if own.LeftInVessel > 0 {
		merged.LeftInVessel = own.LeftInVessel
	}
	if own.Room != 0 {
		merged.Room = own.Room
	}
	if len(own.Responsible) > 0 {
		merged.Responsible = own.Responsible
	}
	merged.Manner = own.Manner
	merged.Cutting = own.Cutting.Over(builtin.Cutting)
	if own.Extruder != (Extruder{}) {
		merged.Extruder = own.Extruder
	}
	if len(own.Sticks) > 0 {
		merged.Sticks = own.Sticks
	}
	merged.Materials = mergeMaterials(builtin.Materials, own.Materials)
	return merged
}

func mergeMaterials(builtin, own []Material) []Material {
	place := make(map[string]int)
	var merged []Material
	for _, m := range builtin {
		place[Fold(m.Name)] = len(merged)
		merged = append(merged, m)
	}
	for _, m := range own {
		if i, ok := place[Fold(m.Name)]; ok {
			merged[i] = m
			continue
		}
		place[Fold(m.Name)] = len(merged)
		merged = append(merged, m)
	}
	return merged
}

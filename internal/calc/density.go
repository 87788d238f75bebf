package calc

// Part is one part of a mixture.
type Part struct{ Grams, GramsPerML float64 }

// DensityByVolume gives the density of a mixture in g/mL, as if the volumes
// simply added up: ρ = Σm / Σ(m/ρ). For batter no published value exists to
// hold it against; a maker's own measurement overrides it. Parts of no mass
// count for nothing, and a mixture of nothing has the density zero.
func DensityByVolume(parts ...Part) float64 {
	var grams, ml float64
	for _, p := range parts {
		if p.Grams == 0 {
			continue
		}
		grams += p.Grams
		ml += p.Grams / p.GramsPerML
	}
	if ml == 0 {
		return 0
	}
	return grams / ml
}

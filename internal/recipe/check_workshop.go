package recipe

import (
	"slices"

	"bench/internal/quantity"
)

// CheckWorkshop gives everything that is wrong with a workshop document by
// itself. A list that it leaves empty is taken from the built-in workshop.
func CheckWorkshop(w Workshop) []Problem {
	c := &checker{w: w}
	c.workshopNames()
	for i, s := range w.Scales {
		p := Path("scales").Item(i)
		switch {
		case s.Reads <= 0:
			c.errorf(p.Field("reads"), "say what %q reads to, above 0 g", s.Name)
		case s.Max < 100*s.Reads:
			c.errorf(p.Field("max"), "%q carries %s and reads to %s: a scale carries at least a hundred times what it reads to", s.Name, s.Max, s.Reads)
		}
	}
	for i, m := range w.Moulds {
		c.workshopMould(Path("moulds").Item(i), m)
	}
	for i, m := range w.Materials {
		c.workshopMaterial(Path("materials").Item(i), m)
	}
	c.workshopSticks()
	return c.problems
}

func (c *checker) workshopNames() {
	list := func(what, field string, n int, name func(int) string) {
		var names []string
		var paths []Path
		for i := range n {
			names = append(names, name(i))
			paths = append(paths, Path(field).Item(i).Field("name"))
		}
		c.distinct(what, paths, names)
	}
	list("scale", "scales", len(c.w.Scales), func(i int) string { return c.w.Scales[i].Name })
	list("vessel", "vessels", len(c.w.Vessels), func(i int) string { return c.w.Vessels[i].Name })
	list("mould", "moulds", len(c.w.Moulds), func(i int) string { return c.w.Moulds[i].Name })
	list("material", "materials", len(c.w.Materials), func(i int) string { return c.w.Materials[i].Name })
}

// workshopMaterial checks a material's values and that it states nothing that
// its kind does not have: a limit on a colour would never be looked at.
func (c *checker) workshopMaterial(p Path, m Material) {
	scents := []MaterialKind{FragranceMaterial, EssentialMaterial}
	for _, f := range []struct {
		name  string
		given bool
		kinds []MaterialKind
	}{
		{"oil", m.Oil != "", []MaterialKind{OilMaterial, AdditiveMaterial, ColourMaterial}},
		{"oil share", m.OilShare != 0, []MaterialKind{AdditiveMaterial, ColourMaterial}},
		{"sv", m.Certified(), []MaterialKind{OilMaterial}},
		{"density", m.Density != 0, []MaterialKind{OilMaterial}},
		{"melts", m.Melts != 0, []MaterialKind{OilMaterial}},
		{"purity", m.Purity != 0, []MaterialKind{AlkaliMaterial}},
		{"stock", m.Stock != 0, []MaterialKind{AlkaliMaterial}},
		{"made", m.Made != "", []MaterialKind{AlkaliMaterial, PremeltedMaterial}},
		{"water", m.Water != 0, []MaterialKind{AdditiveMaterial}},
		{"acid", m.Acid != 0, []MaterialKind{AdditiveMaterial}},
		{"does", len(m.Does) > 0, scents},
		{"becomes", m.Becomes != "", scents},
		{"limit", m.Limit != 0, scents},
		{"high pH", m.HighPH != "", []MaterialKind{ColourMaterial}},
		{"soap inci", m.SoapINCI != "", []MaterialKind{OilMaterial}},
		{"allergens", len(m.Allergens) > 0, []MaterialKind{FragranceMaterial, EssentialMaterial, AdditiveMaterial, ToppingMaterial}},
		{"contains", len(m.Contains) > 0, []MaterialKind{DoughMaterial, PremeltedMaterial}},
		{"looks", m.Looks != "", []MaterialKind{ColourMaterial, ToppingMaterial, DoughMaterial}},
	} {
		if f.given && m.Kind != "" && !slices.Contains(f.kinds, m.Kind) {
			c.errorf(p.Field(f.name), "%q does not apply to %s: leave it out", f.name, article(string(m.Kind)))
		}
	}
	if m.Kind == OilMaterial {
		c.workshopOil(p.Field("oil"), m)
		c.workshopSV(p.Field("sv"), m)
	}
	if f := Fold(m.Name); m.Kind == AlkaliMaterial && f != SodiumHydroxide && f != PotassiumHydroxide {
		c.errorf(p.Field("name"), "an alkali is called %q or %q: give the maker and the grade in the lot", SodiumHydroxide, PotassiumHydroxide)
	}
	if m.Kind == AlkaliMaterial && Fold(m.Name) == PotassiumHydroxide && m.Purity == 0 && m.Stock == 0 {
		c.errorf(p, "the purity of potassium hydroxide must be stated: it commonly holds 5 to 15 %% of water; read it on the container and add it, as in \"purity: 90 %%\"")
	}
	if slices.Contains(scents, m.Kind) {
		c.workshopScent(p, m)
	}
	c.workshopStock(p, m)
	c.workshopCarried(p, m)
	c.workshopParts(p, m)
	if m.Purity > quantity.Whole {
		c.errorf(p.Field("purity"), "a purity cannot be more than 100 %%")
	}
	if m.Limit > quantity.Whole {
		c.errorf(p.Field("limit"), "a limit cannot be more than 100 %%")
	}
}

// workshopScent checks that what a scent does agrees with itself: one that
// behaves may still discolour the soap later.
func (c *checker) workshopScent(p Path, m Material) {
	discolours := slices.Contains(m.Does, Discolours)
	if m.Becomes != "" && !discolours {
		c.errorf(p.Field("becomes"), "%q becomes %s, yet it does not say that it discolours: add \"discolours\" to what it does", m.Name, m.Becomes)
	}
	others := slices.ContainsFunc(m.Does, func(b Behaviour) bool { return b != Behaves && b != Discolours })
	if slices.Contains(m.Does, Behaves) && others {
		c.errorf(p.Field("does"), "%q cannot behave and do something else to the batter as well", m.Name)
	}
}

package check

import (
	"slices"

	"bench/internal/quantity"
	"bench/internal/recipe"
)

// Workshop gives everything that is wrong with a workshop document by
// itself. A list that it leaves empty is taken from the built-in workshop.
func Workshop(w recipe.Workshop) []recipe.Problem {
	c := &checker{w: w}
	c.workshopNames()
	for i, s := range w.Scales {
		p := recipe.Path("scales").Item(i)
		switch {
		case s.Reads <= 0:
			c.errorf(p.Field("reads"), "say what %q reads to, above 0 g", s.Name)
		case s.Max < 100*s.Reads:
			c.errorf(p.Field("max"), "%q carries %s and reads to %s: a scale carries at least a hundred times what it reads to", s.Name, s.Max, s.Reads)
		}
	}
	for i, m := range w.Moulds {
		c.workshopMould(recipe.Path("moulds").Item(i), m)
	}
	for i, m := range w.Materials {
		c.workshopMaterial(recipe.Path("materials").Item(i), m)
	}
	c.workshopSticks()
	c.plausibleWorkshop()
	return c.problems
}

func (c *checker) workshopNames() {
	list := func(what, field string, n int, name func(int) string) {
		var names []string
		var paths []recipe.Path
		for i := range n {
			names = append(names, name(i))
			paths = append(paths, recipe.Path(field).Item(i).Field("name"))
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
func (c *checker) workshopMaterial(p recipe.Path, m recipe.Material) {
	scents := []recipe.MaterialKind{recipe.FragranceMaterial, recipe.EssentialMaterial}
	for _, f := range []struct {
		name  string
		given bool
		kinds []recipe.MaterialKind
	}{
		{"oil", m.Oil != "", []recipe.MaterialKind{recipe.OilMaterial, recipe.AdditiveMaterial, recipe.ColourMaterial}},
		{"oil share", m.OilShare != 0, []recipe.MaterialKind{recipe.AdditiveMaterial, recipe.ColourMaterial}},
		{"sv", m.Certified(), []recipe.MaterialKind{recipe.OilMaterial}},
		{"density", m.Density != 0, []recipe.MaterialKind{recipe.OilMaterial}},
		{"melts", m.Melts != 0, []recipe.MaterialKind{recipe.OilMaterial}},
		{"purity", m.Purity != 0, []recipe.MaterialKind{recipe.AlkaliMaterial}},
		{"stock", m.Stock != 0, []recipe.MaterialKind{recipe.AlkaliMaterial}},
		{"made", m.Made != "", []recipe.MaterialKind{recipe.AlkaliMaterial, recipe.PremeltedMaterial}},
		{"water", m.Water != 0, []recipe.MaterialKind{recipe.AdditiveMaterial}},
		{"acid", m.Acid != 0, []recipe.MaterialKind{recipe.AdditiveMaterial}},
		{"does", len(m.Does) > 0, scents},
		{"becomes", m.Becomes != "", scents},
		{"limit", m.Limit != 0, scents},
		{"high pH", m.HighPH != "", []recipe.MaterialKind{recipe.ColourMaterial}},
		{"soap inci", m.SoapINCI != "", []recipe.MaterialKind{recipe.OilMaterial}},
		{"allergens", len(m.Allergens) > 0, []recipe.MaterialKind{recipe.FragranceMaterial, recipe.EssentialMaterial, recipe.AdditiveMaterial, recipe.ToppingMaterial}},
		{"contains", len(m.Contains) > 0, []recipe.MaterialKind{recipe.DoughMaterial, recipe.PremeltedMaterial}},
		{"looks", m.Looks != "", []recipe.MaterialKind{recipe.ColourMaterial, recipe.ToppingMaterial, recipe.DoughMaterial}},
	} {
		if f.given && m.Kind != "" && !slices.Contains(f.kinds, m.Kind) {
			c.errorf(p.Field(f.name), "%q does not apply to %s: leave it out", f.name, article(string(m.Kind)))
		}
	}
	if m.Kind == recipe.OilMaterial {
		c.workshopOil(p, m)
		c.workshopSV(p.Field("sv"), m)
	}
	if f := recipe.Fold(m.Name); m.Kind == recipe.AlkaliMaterial && f != recipe.SodiumHydroxide && f != recipe.PotassiumHydroxide {
		c.errorf(p.Field("name"), "an alkali is called %q or %q: give the maker and the grade in the lot", recipe.SodiumHydroxide, recipe.PotassiumHydroxide)
	}
	if m.Kind == recipe.AlkaliMaterial && recipe.Fold(m.Name) == recipe.PotassiumHydroxide && m.Purity == 0 && m.Stock == 0 {
		c.errorf(p, "the purity of potassium hydroxide must be stated: it commonly holds 5 to 15 %% of water; read it on the container and add it, as in \"purity: 90 %%\"")
	}
	if slices.Contains(scents, m.Kind) {
		c.workshopScent(p, m)
	}
	c.workshopStock(p, m)
	c.workshopCarried(p, m)
	c.workshopParts(p, m)
	c.dryPurity(p.Field("purity"), m)
	if m.Limit > quantity.Whole {
		c.errorf(p.Field("limit"), "a limit cannot be more than 100 %%")
	}
}

// workshopScent checks that what a scent does agrees with itself: one that
// behaves may still discolour the soap later.
func (c *checker) workshopScent(p recipe.Path, m recipe.Material) {
	discolours := slices.Contains(m.Does, recipe.Discolours)
	if m.Becomes != "" && !discolours {
		c.errorf(p.Field("becomes"), "%q becomes %s, yet it does not say that it discolours: add \"discolours\" to what it does", m.Name, m.Becomes)
	}
	others := slices.ContainsFunc(m.Does, func(b recipe.Behaviour) bool { return b != recipe.Behaves && b != recipe.Discolours })
	if slices.Contains(m.Does, recipe.Behaves) && others {
		c.errorf(p.Field("does"), "%q cannot behave and do something else to the batter as well", m.Name)
	}
}

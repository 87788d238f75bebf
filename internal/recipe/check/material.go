package check

import (
	"slices"

	"bench/internal/recipe"
)

// material finds a material of one of the kinds by name, keeps it for the batch
// and gives its name as the workshop writes it; a name that is not found stays
// as it is.
func (c *checker) material(p recipe.Path, name, what string, kinds ...recipe.MaterialKind) string {
	m, ok := material(c.w, name)
	if ok && !slices.Contains(kinds, m.Kind) {
		c.errorf(p, "%s is listed in the workshop as %s, not as %s: use another material, or correct its kind", m.Name, article(string(m.Kind)), article(what))
		return m.Name
	}
	if !ok {
		if f := recipe.Fold(name); f == recipe.SodiumHydroxide || f == recipe.PotassiumHydroxide {
			return c.keep(f)
		}
		var known []string
		for _, m := range c.w.Materials {
			if slices.Contains(kinds, m.Kind) {
				known = append(known, m.Name)
			}
		}
		c.errorf(p, "no %s of the workshop is called %q%s", what, name, recipe.DidYouMean(name, known))
		return name
	}
	c.use(m)
	return m.Name
}

// keep keeps one of the materials that every workshop has, listed or not.
func (c *checker) keep(name string) string {
	m, ok := material(c.w, name)
	if !ok {
		m = recipe.Material{Name: name, Kind: recipe.AlkaliMaterial}
		if name == recipe.Water {
			m.Kind = recipe.WaterMaterial
		}
	}
	c.use(m)
	return m.Name
}

func (c *checker) use(m recipe.Material) {
	if !slices.ContainsFunc(c.used, func(u recipe.Material) bool { return u.Name == m.Name }) {
		c.used = append(c.used, m)
	}
}

// material finds a material by its name.
func material(w recipe.Workshop, name string) (recipe.Material, bool) {
	f := recipe.Fold(name)
	i := slices.IndexFunc(w.Materials, func(m recipe.Material) bool { return recipe.Fold(m.Name) == f })
	if i < 0 {
		return recipe.Material{}, false
	}
	return w.Materials[i], true
}

// article puts "a" or "an" before a noun.
func article(noun string) string {
	if noun != "" && slices.Contains([]byte("aeiou"), noun[0]) {
		return "an " + noun
	}
	return "a " + noun
}

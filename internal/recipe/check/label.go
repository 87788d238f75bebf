package check

import (
	"bench/internal/quantity"
	"bench/internal/recipe"
)

// dough finds the material that an embed is made of, and everything in it.
func (c *checker) dough(p recipe.Path, name string) string {
	name = c.material(p, name, "soap dough", recipe.DoughMaterial)
	m, ok := material(c.w, name)
	if !ok || m.Kind != recipe.DoughMaterial {
		return name
	}
	var known []string
	for _, k := range c.w.Materials {
		known = append(known, k.Name)
	}
	for _, part := range m.Contains {
		_, _, oil := c.oilNamed(part.Name)
		_, material := material(c.w, part.Name)
		if f := recipe.Fold(part.Name); !oil && !material && f != recipe.Water && f != recipe.SodiumHydroxide && f != recipe.PotassiumHydroxide {
			c.errorf(p, "%s contains %q, which is neither an oil nor a material of the workshop%s", m.Name, part.Name, recipe.DidYouMean(part.Name, known))
		}
	}
	return m.Name
}

// workshopParts checks the lists of shares of a material.
func (c *checker) workshopParts(p recipe.Path, m recipe.Material) {
	var allergens, contains quantity.Ratio
	for _, a := range m.Allergens {
		allergens += a.Share
	}
	if allergens > quantity.Whole {
		c.errorf(p.Field("allergens"), "the allergens of %q are %s of it together", m.Name, allergens)
	}
	for _, part := range m.Contains {
		contains += part.Share
	}
	if (m.Kind == recipe.DoughMaterial || m.Kind == recipe.PremeltedMaterial) && contains != quantity.Whole {
		c.errorf(p.Field("contains"), "%q must say what it was made of, all of it: the shares add up to %s, not 100 %%", m.Name, contains)
	}
}

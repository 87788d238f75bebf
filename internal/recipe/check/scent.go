package check

import (
	"math"

	"bench/internal/calc"
	"bench/internal/recipe"
)

// scents checks every layer's scents against their limits, in the cured bar,
// where the water that has left makes the scent's share largest. Several scents
// in one layer may hold the same restricted substance, so that together they
// obey Σ(rate/limit) ≤ 1.
func (c *checker) scents() {
	for i, l := range c.r.Layers {
		m := c.control(c.r.Loaves).Mixture(i)
		sum, single := 0.0, false
		for j, s := range l.Scents {
			material, _ := material(c.w, s.Material)
			if material.Limit == 0 {
				continue
			}
			fresh := calc.ScentShare(m.Scents[j], m.Total)
			cured := calc.ScentShareCured(m.Scents[j], m.Total, recipe.CureLoss)
			limit := material.Limit.Fraction()
			sum += cured / limit
			if cured <= limit*(1+1e-9) {
				continue
			}
			single = true
			rest := m.Total - m.Scents[j]
			most := calc.MostScent(rest, limit, recipe.CureLoss)
			if s.Of == recipe.OfBatter {
				most /= rest + most
			}
			c.errorf(recipe.Path("layers").Item(i).Field("scents").Item(j),
				"%s would be %.2f %% of the fresh layer %q and %.2f %% once %.0f %% of its weight has dried out, and its limit is %s: lower the rate to %.2f %% of %s or less",
				material.Name, 100*fresh, l.Name, 100*cured, 100*recipe.CureLoss, material.Limit, math.Floor(most*1e4+1e-6)/100, s.Of)
		}
		if sum > 1+1e-9 && !single {
			c.errorf(recipe.Path("layers").Item(i).Field("scents"),
				"together the scents of %q use %.0f %% of their limits once the bar has cured: lower them until they use 100 %% at most", l.Name, math.Ceil(100*sum))
		}
	}
}

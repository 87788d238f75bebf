package check

import (
	"bench/internal/quantity"
	"bench/internal/recipe"
)

// carried keeps the values of the oil that a material brings for the batch.
func (c *checker) carried(p recipe.Path, name string) {
	if m, ok := material(c.w, name); ok && m.OilShare > 0 && m.HoldsOil() {
		c.oil(p, m.Oil)
	}
}

// workshopCarried checks what an additive or a colourant says of the oil in it.
func (c *checker) workshopCarried(p recipe.Path, m recipe.Material) {
	switch {
	case !m.HoldsOil() || m.Oil == "" && m.OilShare == 0:
		return
	case m.OilShare == 0:
		c.errorf(p.Field("oil"), "say how much of %q is oil, as in \"oil share: 4 %%\"", m.Name)
	case m.OilShare+m.Water > quantity.Whole:
		c.errorf(p.Field("oil share"), "water and oil of %q are more than 100 %% together", m.Name)
	}
	c.workshopOil(p, m)
}

package check

import (
	"bench/internal/calc"
	"bench/internal/quantity"
	"bench/internal/recipe"
)

// workshopStock checks a stock solution and what an additive brings along.
func (c *checker) workshopStock(p recipe.Path, m recipe.Material) {
	switch {
	case m.Stock > 0 && m.Purity > 0:
		c.errorf(p.Field("purity"), "a stock solution has its strength for a purity: leave the purity out")
	case m.Stock.Fraction() > calc.MaxLyeConcentration:
		c.errorf(p.Field("stock"), "a stock solution of %s cannot be: no more than %.1f %% dissolves at 20 °C", m.Stock, 100*calc.MaxLyeConcentration)
	case m.Made != "" && m.Stock == 0 && m.Kind == recipe.AlkaliMaterial:
		c.errorf(p.Field("made"), "\"made\" is for a stock solution: state its strength, as in \"stock: 50 %%\"")
	}
	if m.Water > quantity.Whole {
		c.errorf(p.Field("water"), "an additive cannot hold more than 100 %% of water")
	}
}

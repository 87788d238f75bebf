package recipe

import "bench/internal/solution"

// Hydroxides are the pure alkalis of a lye solution and the water that they
// are bound to, in grams or in grams for each gram of oils.
type Hydroxides struct {
	NaOH, KOH float64
	Bound     float64 // Bound is what the containers' purities leave; it is taken for water.
}

// Hydroxides splits alkalis as weighed, in the order of the batter's, into what
// is pure and what is not. What is not pure is mostly water in potassium
// hydroxide (common practice, no source).
func (c Control) Hydroxides(b Batter, alkalis []float64) Hydroxides {
	var h Hydroxides
	for i, a := range b.Alkali {
		m, _ := c.Material(a.Material)
		pure := alkalis[i] * m.PureFraction()
		h.Bound += alkalis[i] - pure
		if a.Material == PotassiumHydroxide {
			h.KOH += pure
		} else {
			h.NaOH += pure
		}
	}
	return h
}

// lyeDensity gives the density of a batter's lye solution in g/mL, at the
// temperature at which it meets the oils.
func (c Control) lyeDensity(b Batter, waterPerOil float64) float64 {
	h := c.Hydroxides(b, c.AlkalisPerOil(b))
	return solution.MixedHydroxideDensity(h.NaOH, h.KOH, waterPerOil+h.Bound, b.MixAt.Celsius())
}

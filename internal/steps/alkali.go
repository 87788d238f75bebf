package steps

import (
	"bench/internal/calc"
	"bench/internal/quantity"
	"bench/internal/recipe"
)

// alkaliGrams gives what to weigh of one alkali, impurities included.
func alkaliGrams(b recipe.Batter, a recipe.AlkaliShare, m recipe.Material, k pot) float64 {
	return calc.AlkaliNeeded(k.koh, k.acids, b.Superfat.Fraction(), a.Share.Fraction(), recipe.MolarMass(a.Material), m.PureFraction())
}

// carriedAmount gives the oil that an additive brings, as it was weighed.
func carriedAmount(k pot, o recipe.Carried) calc.OilAmount {
	grams := calc.Exactly(o.Grams)
	if o.Additive < len(k.additives) {
		i := interval(k.additives[o.Additive])
		grams = calc.Interval{Low: i.Low * o.Share, Nominal: i.Nominal * o.Share, High: i.High * o.Share}
	}
	return calc.OilAmount{Name: o.Oil.Name, Grams: grams, SV: o.Oil.SV}
}

// inCup gives what the alkali cup will carry, and what stands in it by now: two
// alkalis are weighed one on top of the other and go into the water together.
// One alone has the cup to itself, and its own containers are counted with it.
func (p *planner) inCup(b recipe.Batter, k pot) (load, soFar quantity.Mass) {
	if len(b.Alkali) < 2 {
		return 0, 0
	}
	grams := 0.0
	for _, a := range b.Alkali {
		m, _ := p.c.Material(a.Material)
		if m.Stock > 0 {
			continue
		}
		grams += alkaliGrams(b, a, m, k)
		weighed, _ := p.s.Mass(b.Name + "/" + a.Material)
		soFar += weighed
	}
	return quantity.FromGrams(grams), soFar
}

package steps

import (
	"slices"

	"bench/internal/quantity"
	"bench/internal/rack"
	"bench/internal/recipe"
	"bench/internal/uses"
)

// loadSlack is how much more a vessel is chosen for than is planned: as much as weights
// within their tolerances bring.
const loadSlack = 1.02

// fitVessels has the rack pass over vessels that are too small. It goes by the plan and
// not by the facts, so that no vessel changes half way; a batch begun under earlier rules
// keeps its own.
func (p *planner) fitVessels() {
	if p.c.HoldsOne() && slices.ContainsFunc(p.c.Vessels, func(v recipe.Vessel) bool { return v.Brim > 0 }) {
		p.rack.Fit(p.loads(), uses.Fits)
	}
}

// loads are the most that pots, lye jugs and jugs are planned to hold.
func (p *planner) loads() rack.Loads {
	l := rack.Loads{Loaves: make([]quantity.Mass, p.c.Loaves), Layers: make([]quantity.Mass, len(p.c.Recipe.Layers))}
	all := int64(0)
	for _, w := range p.weights {
		all += w
	}
	for bi, b := range p.c.Recipe.Batters {
		oils, pot, lye := p.size.Oils[bi].Grams()*loadSlack, 0.0, 0.0
		at := p.c.Recipe.LayersOf(b.Name)
		for _, i := range at {
			m := p.size.Mixtures[i]
			layer := oils * p.size.Shares[i] * m.Total
			pot, lye = pot+layer, lye+oils*p.size.Shares[i]*(m.Alkali+m.Water)
			for loaf, w := range p.weights {
				l.Loaves[loaf] = max(l.Loaves[loaf], quantity.FromGrams(layer*float64(w)/float64(max(1, all))))
			}
			if len(at) > 1 {
				l.Layers[i] = quantity.FromGrams(layer)
			}
		}
		for _, a := range b.Additives {
			if a.In == recipe.InLyeWater {
				lye += oils * a.Rate.Fraction()
			}
		}
		l.Pots, l.LyeJugs = append(l.Pots, quantity.FromGrams(pot)), append(l.LyeJugs, quantity.FromGrams(lye))
	}
	return l
}

package steps

import (
	"fmt"

	"bench/internal/calc"
	"bench/internal/quantity"
	"bench/internal/recipe"
)

// stockTask weighs a stock solution into the jug, on top of the extra water.
func (p *planner) stockTask(b recipe.Batter, m recipe.Material, k pot, grams float64) Task {
	oils := sum(k.allOils()...).Grams()
	exact := make([]float64, len(b.Alkali))
	for i, a := range b.Alkali {
		other, _ := p.c.Material(a.Material)
		exact[i] = alkaliGrams(b, a, other, k)
	}
	water, _ := p.c.ExtraWater(b, exact, oils)
	weighed, _ := p.s.Mass(b.Name + "/" + recipe.Water)
	return p.weigh(weighing{
		id: b.Name + "/" + m.Name, title: fmt.Sprintf("%s, stock of %s", m.Name, m.Stock), material: m.Name, lot: m.Lot, mustType: true,
		hint: fmt.Sprintf("Gloves, goggles, sleeves: it burns like the dry alkali. %s; no crystals in it? Read the scale and type what it says.",
			capital(stockFrom(m))),
		grams: grams, tolerance: calc.AlkaliTolerance(k.koh, recipe.MolarMass(m.Name), m.PureFraction(), ingredients(b)),
		vessel: k.jug, load: quantity.FromGrams(water + grams), before: quantity.FromGrams(water), soFar: weighed,
	})
}

// stockFrom says which stock solution it is.
func stockFrom(m recipe.Material) string {
	words := "the stock"
	if m.Lot != "" {
		words += " of lot " + m.Lot
	}
	if m.Made != "" {
		words += ", made " + m.Made
	}
	return words
}

// stock gives the strength of the stock solution that a batter's lye comes
// from, if it does.
func (p *planner) stock(k pot) (strength float64, ok bool) {
	for _, a := range k.recipe.Alkali {
		if m, _ := p.c.Material(a.Material); m.Stock > 0 {
			return m.Stock.Fraction(), true
		}
	}
	return 0, false
}

// dissolveTitle asks for the alkali to be dissolved, or for the stock solution,
// which is in the jug already, to be mixed with its water.
func (p *planner) dissolveTitle(k pot) string {
	if _, ok := p.stock(k); ok && len(k.alkali) == 1 {
		return "Stir stock solution and water until no streaks show"
	}
	return "Tip the alkali into the water, a little at a time, and stir until clear"
}

func gramsOf(tasks []Task) []float64 {
	grams := make([]float64, len(tasks))
	for i, t := range tasks {
		grams[i] = amount(t).Mass.Grams()
	}
	return grams
}

// Package fill says how a recipe fills its moulds: how much oil each batter takes,
// and how high what is poured comes to lie.
//
// The rule: it follows from the control recipe and from what is poured, and asks
// nothing else; what was weighed is steps' business.
package fill

import (
	"bench/internal/form"
	"bench/internal/quantity"
	"bench/internal/recipe"
)

// Size is a recipe at its loaves before anything is weighed.
type Size struct {
	Mixtures []recipe.Mixture // Mixtures are per layer.
	Shares   []float64        // Shares are each layer's part of its batter's oils.
	Oils     []quantity.Mass  // Oils are per batter, before they are rounded to a scale.

	layers  []recipe.Layer
	section form.Section
	drawn   []form.Layer // drawn are the layers as the recipe draws them, in millimetres.
}

// Of scales a control recipe. Where the recipe states an oil weight the fill
// follows from it; otherwise the oils follow from the moulds, with what stays in
// each vessel on top.
func Of(c recipe.Control) Size {
	mixtures := c.Mixtures()
	need := c.OilsNeeded(mixtures)
	z := Size{
		Mixtures: mixtures, Shares: make([]float64, len(need)),
		layers: c.Recipe.Layers, section: c.Mould.Section(), drawn: make([]form.Layer, len(need)),
	}
	for i, l := range c.Recipe.Layers {
		z.drawn[i] = l.Fill(c.Mould)
	}
	for _, b := range c.Recipe.Batters {
		sum := 0.0
		for _, at := range c.Recipe.LayersOf(b.Name) {
			sum += need[at]
		}
		for _, at := range c.Recipe.LayersOf(b.Name) {
			if sum > 0 {
				z.Shares[at] = need[at] / sum
			}
		}
		oils := quantity.FromGrams(sum)
		if b.OilWeight > 0 {
			oils = b.OilWeight
		}
		z.Oils = append(z.Oils, oils)
	}
	return z
}

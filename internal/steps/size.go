package steps

import (
	"bench/internal/quantity"
	"bench/internal/recipe"
)

// size is a recipe at its loaves before anything is weighed.
type size struct {
	face     face
	mixtures []recipe.Mixture // mixtures are per layer.
	shares   []float64        // shares are each layer's part of its batter's oils.
	oils     []quantity.Mass  // oils are per batter, before they are rounded to a scale.
}

// sizeOf scales a control recipe. Where the recipe states an oil weight the
// fill follows from it; otherwise the oils follow from the moulds, with what
// stays in each vessel on top.
func sizeOf(c recipe.Control) size {
	need := c.OilsNeeded()
	z := size{face: faceOf(c), shares: make([]float64, len(need))}
	for i := range need {
		z.mixtures = append(z.mixtures, c.Mixture(i))
	}
	for _, b := range c.Recipe.Batters {
		sum := 0.0
		for _, at := range c.Recipe.LayersOf(b.Name) {
			sum += need[at]
		}
		for _, at := range c.Recipe.LayersOf(b.Name) {
			if sum > 0 {
				z.shares[at] = need[at] / sum
			}
		}
		oils := quantity.FromGrams(sum)
		if b.OilWeight > 0 {
			oils = b.OilWeight
		}
		z.oils = append(z.oils, oils)
	}
	return z
}

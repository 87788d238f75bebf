package recipe

import (
	"bench/internal/form"
	"bench/internal/quantity"
)

// Batter gives the batter of that name and its place in the list.
func (r Recipe) Batter(name string) (Batter, int) {
	for i, b := range r.Batters {
		if b.Name == name {
			return b, i
		}
	}
	return Batter{}, -1
}

// LayersOf gives the places of the layers that a batter feeds, floor first.
func (r Recipe) LayersOf(batter string) []int {
	at := make([]int, 0, len(r.Layers))
	for i := range r.Layers {
		if r.Layers[i].Batter == batter {
			at = append(at, i)
		}
	}
	return at
}

// WetsFirst says that a layer's colours are weighed and wetted before the lye
// solution meets the oils, although they go in after the split.
func (c Control) WetsFirst(layer int) bool {
	l := c.Recipe.Layers[layer]
	return c.PlanVersion >= 2 && len(l.Colours) > 0 && len(c.Recipe.LayersOf(l.Batter)) > 1
}

// HoldsOne says that no vessel is planned for a second thing while the first is in it.
func (c Control) HoldsOne() bool { return c.PlanVersion >= 4 }

// ToAPellet says that dry alkali is held to no less than a pellet of it weighs.
func (c Control) ToAPellet() bool { return c.PlanVersion >= 5 }

// Fills gives the batter that each layer takes on the cut face, floor first.
func (c Control) Fills() []form.LayerFill {
	layers := make([]form.Layer, len(c.Recipe.Layers))
	for i, l := range c.Recipe.Layers {
		layers[i] = l.Fill(c.Mould)
	}
	return form.FillLayers(c.Mould.Section(), layers)
}

// Clinging gives what a layer leaves behind in all loaves: its part of what
// stays in the pot, and what stays in each vessel that it passes through, one
// for each loaf if there are several, and one for the layer if its pot feeds
// several.
func (c Control) Clinging(layer int) quantity.Mass {
	siblings := len(c.Recipe.LayersOf(c.Recipe.Layers[layer].Batter))
	vessels := quantity.Mass(0)
	if c.Loaves > 1 {
		vessels += quantity.Mass(c.Loaves)
	}
	if siblings > 1 {
		vessels++
	}
	return c.LeftInVessel*vessels + c.LeftInVessel/quantity.Mass(siblings)
}

// LoafWeights gives in what proportion the loaves share a layer: equally, or as
// the recipe states it for so many loaves.
func (c Control) LoafWeights() []int64 {
	if len(c.Recipe.LoafShares) == c.Loaves {
		return c.Recipe.LoafShares
	}
	weights := make([]int64, c.Loaves)
	for i := range weights {
		weights[i] = 1
	}
	return weights
}

// fullLoaves gives how many full loaves the loaves add up to; the one with the
// largest share is full.
func (c Control) fullLoaves() float64 {
	sum, largest := int64(0), int64(1)
	for _, w := range c.LoafWeights() {
		sum, largest = sum+w, max(largest, w)
	}
	return float64(sum) / float64(largest)
}

// OilsNeeded gives, layer by layer, the grams of oils that fill it in all
// loaves with those mixtures: volume times density, with what clings to vessels on top.
func (c Control) OilsNeeded(of []Mixture) []float64 {
	fills, loaves := c.Fills(), c.fullLoaves()
	need := make([]float64, len(fills))
	for i, fill := range fills {
		m := of[i]
		poured := fill.Volume / 1000 * m.GramsPerML * loaves
		need[i] = (poured + c.Clinging(i).Grams()) / m.Total
	}
	return need
}

package face

import (
	"strings"

	"bench/internal/recipe"
	"bench/internal/scene"
)

// uncoloured is soap that nothing was stirred into, and lines is what embeds and
// bars are drawn round with: both of our own choice.
//
//nolint:gochecknoglobals // A table.
var (
	uncoloured = scene.Colour{R: 0xef, G: 0xe6, B: 0xd2}
	lines      = scene.Colour{R: 0x3c, G: 0x38, B: 0x33}
)

// colourOf gives a layer's colour: what its colourants look like in soap, mixed
// in light by their rates. It is an idea of the colour, not a forecast.
func colourOf(c recipe.Control, l recipe.Layer) scene.Colour {
	var sum scene.Linear
	total := 0.0
	for _, k := range l.Colours {
		m, _ := c.Material(k.Material)
		colour, ok := scene.ParseColour(m.Looks)
		if !ok {
			continue
		}
		rate := k.Rate.Fraction()
		total += rate
		for i, v := range colour.Linear() {
			sum[i] += v * rate
		}
	}
	if total == 0 {
		return uncoloured
	}
	for i := range sum {
		sum[i] /= total
	}
	return sum.Colour()
}

// doughOf gives the colour of the soap dough that an embed is made of.
func doughOf(c recipe.Control, e recipe.Embed) scene.Colour {
	m, _ := c.Material(e.Dough)
	if colour, ok := scene.ParseColour(m.Looks); ok {
		return colour
	}
	return uncoloured
}

// colourantsOf names a layer's colourants.
func colourantsOf(l recipe.Layer) string {
	names := make([]string, len(l.Colours))
	for i, k := range l.Colours {
		names[i] = recipe.Clean(k.Material)
	}
	return strings.Join(names, ", ")
}

// toppingOf gives the colour of the first topping that has one.
func toppingOf(c recipe.Control) (scene.Colour, bool) {
	for _, t := range c.Recipe.Top.Toppings {
		m, _ := c.Material(t.Material)
		if colour, ok := scene.ParseColour(m.Looks); ok {
			return colour, true
		}
	}
	return scene.Colour{}, false
}

// near says that two colours are hard to tell apart, so that a line must come
// between them: a distance of 0.1 in Oklab.
func near(a, b scene.Colour) bool {
	return a.Linear().Perceived().Apart(b.Linear().Perceived()) < 0.1*0.1
}

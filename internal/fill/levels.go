package fill

import (
	"math"
	"slices"

	"bench/internal/form"
	"bench/internal/quantity"
)

// Middle gives the height of a surface in the middle of the mould.
func (z Size) Middle(l form.Line) quantity.Length {
	return quantity.FromMillimetres(l.Height(z.section.Width() / 2))
}

// Levels follows a loaf that gets so much of each layer: what was really poured
// decides where each surface lies.
func (z Size) Levels(masses []quantity.Mass) []form.FaceLayer {
	up := form.Pour{Section: z.section}
	levels := make([]form.FaceLayer, len(masses))
	on := form.Level(0)
	for i, m := range masses {
		drawn := z.drawn[i]
		levels[i] = up.Next(drawn, on, 1000*m.Grams()/z.Mixtures[i].GramsPerML)
		on = drawn.Surface
	}
	return levels
}

// Displaced is what an embed takes of the room that a layer has in one loaf.
type Displaced struct {
	Embed  string
	Layer  string // Layer is the one that holds the embed.
	Volume quantity.Volume
	Lift   quantity.Length // Lift is its part of the rise from the pour line to the finished surface.
}

// Displaced lists the embeds that reach into a layer.
func (z Size) Displaced(levels []form.FaceLayer, layer int) []Displaced {
	base := form.Level(0)
	if layer > 0 {
		base = levels[layer-1].Surface
	}
	var list []Displaced
	pressed := 0.0
	for i, l := range z.layers[:layer+1] {
		for n, e := range levels[i].Embeds {
			volume := z.section.Volume(e.Under(levels[layer].Surface).Less(e.Under(base)))
			d := Displaced{Embed: l.Embeds[n].Name, Layer: l.Name, Volume: quantity.Volume(math.Round(volume))}
			if d.Volume <= 0 {
				continue
			}
			if i == layer && !e.Stands {
				pressed += volume
				d.Lift = quantity.FromMillimetres(volume) // Until it is known how much all of them are.
			}
			list = append(list, d)
		}
	}
	rise := float64(z.Middle(levels[layer].Surface) - z.Middle(levels[layer].PourLine))
	for i := range list {
		if list[i].Lift > 0 {
			list[i].Lift = quantity.Length(math.Round(list[i].Lift.Millimetres() / pressed * rise))
		}
	}
	return list
}

// Walls gives where a surface meets the left and the right wall.
func (z Size) Walls(l form.Line) (left, right quantity.Length) {
	return max(0, quantity.FromMillimetres(l.Height(0))), max(0, quantity.FromMillimetres(l.Height(z.section.Width())))
}

// Standing says that embeds stand where this layer is poured: its own, or ones
// that layers below hold.
func (z Size) Standing(layer int) bool {
	if slices.ContainsFunc(z.drawn[layer].Embeds, func(e form.Embed) bool { return e.Stands }) {
		return true
	}
	if layer == 0 {
		return false
	}
	base := z.drawn[layer-1].Surface
	for _, below := range z.drawn[:layer] {
		if slices.ContainsFunc(below.Embeds, func(e form.Embed) bool { return form.Cover(e, base) < 0 }) {
			return true
		}
	}
	return false
}

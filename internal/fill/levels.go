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

// Out says of each layer's embeds, in their order, whether a loaf goes without.
// It is nil for a loaf that has them all.
type Out [][]bool

// Levels follows a loaf that gets so much of each layer, and goes without some
// embeds: what is really in it decides where each surface lies.
func (z Size) Levels(masses []quantity.Mass, out Out) []form.FaceLayer {
	_, levels := z.follow(masses, out)
	return levels
}

// Need gives what takes the next layer of a loaf to the surface that the design
// draws, whatever lies below it.
func (z Size) Need(below []quantity.Mass, out Out) quantity.Mass {
	up, _ := z.follow(below, out)
	i := len(below)
	return quantity.FromGrams(up.Needs(z.without(i, out), z.drawnOn(i)) / 1000 * z.Mixtures[i].GramsPerML)
}

func (z Size) follow(masses []quantity.Mass, out Out) (form.Pour, []form.FaceLayer) {
	up := form.Pour{Section: z.section}
	levels := make([]form.FaceLayer, len(masses))
	for i, m := range masses {
		levels[i] = up.Next(z.without(i, out), z.drawnOn(i), 1000*m.Grams()/z.Mixtures[i].GramsPerML)
	}
	return up, levels
}

// drawnOn is the surface that the design pours a layer on.
func (z Size) drawnOn(layer int) form.Line {
	if layer == 0 {
		return form.Level(0)
	}
	return z.drawn[layer-1].Surface
}

// without gives a layer as it is drawn, with those embeds out that a loaf goes
// without.
func (z Size) without(layer int, out Out) form.Layer {
	drawn := z.drawn[layer]
	if out == nil {
		return drawn
	}
	drawn.Embeds = slices.Clone(drawn.Embeds)
	for n := range drawn.Embeds {
		drawn.Embeds[n].Out = out[layer][n]
	}
	return drawn
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
			if d.Volume <= 0 || e.Out {
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
		if slices.ContainsFunc(below.Embeds, func(e form.Embed) bool { return form.Cover(e.Outline, base) < 0 }) {
			return true
		}
	}
	return false
}

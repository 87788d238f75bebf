package steps

import (
	"math"

	"bench/internal/form"
	"bench/internal/quantity"
	"bench/internal/recipe"
)

// face is the geometry of one loaf as the recipe draws it, in millimetres.
type face struct {
	section form.Section
	layers  []form.Layer
}

// faceOf draws the loaf of a control recipe.
func faceOf(c recipe.Control) face {
	f := face{section: c.Mould.Section()}
	for _, l := range c.Recipe.Layers {
		f.layers = append(f.layers, l.Fill(c.Mould))
	}
	return f
}

// middle gives the height of a surface in the middle of the mould.
func (f face) middle(l form.Line) quantity.Length {
	return quantity.FromMillimetres(l.Height(f.section.Width() / 2))
}

// levels follows a loaf that gets so much of each layer: what was really poured
// decides where each surface lies.
func (p *planner) levels(masses []quantity.Mass) []form.FaceLayer {
	up := form.Pour{Section: p.size.face.section}
	levels := make([]form.FaceLayer, len(masses))
	on := form.Level(0)
	for i, m := range masses {
		drawn := p.size.face.layers[i]
		levels[i] = up.Next(drawn, on, 1000*m.Grams()/p.size.mixtures[i].GramsPerML)
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

// displaced lists the embeds that reach into a layer.
func (p *planner) displaced(levels []form.FaceLayer, layer int) []Displaced {
	base := form.Level(0)
	if layer > 0 {
		base = levels[layer-1].Surface
	}
	var list []Displaced
	pressed := 0.0
	for i, l := range p.c.Recipe.Layers[:layer+1] {
		for n, e := range levels[i].Embeds {
			volume := p.size.face.section.Volume(e.Under(levels[layer].Surface).Less(e.Under(base)))
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
	rise := float64(p.size.face.middle(levels[layer].Surface) - p.size.face.middle(levels[layer].PourLine))
	for i := range list {
		if list[i].Lift > 0 {
			list[i].Lift = quantity.Length(math.Round(list[i].Lift.Millimetres() / pressed * rise))
		}
	}
	return list
}

// Face gives the cut face of one loaf, counted from 0, as it is planned or was
// really poured. It has no layers for a loaf that there is not.
func (p Plan) Face(loaf int) form.Face {
	face := form.Face{Section: p.Mould.Section()}
	for _, l := range p.Layers {
		if loaf >= 0 && loaf < len(l.Loaves) {
			face.Layers = append(face.Layers, l.Loaves[loaf].Face)
		}
	}
	return face
}

// EmbedTask is the id of the task that brings an embed into a loaf, counted from
// 0, before its layer or after.
func EmbedTask(layer string, loaf int, embed string) string {
	return ofLoaf(layer, loaf) + "/" + embed
}

package steps

import (
	"slices"

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
		f.layers = append(f.layers, l.Fill())
	}
	return f
}

// rise follows one loaf up through its layers: what was really poured decides
// where each surface lies.
type rise struct {
	face     face
	base     form.Line
	standing []form.Outline
}

// pour adds a layer's volume and gives the surface before its embeds go in and
// after. The embeds keep their sink, so they settle with the surface.
func (r *rise) pour(layer int, millilitres float64) (pourLine, surface quantity.Length) {
	volume := 1000 * millilitres
	drawn := r.face.layers[layer]
	r.standing = append(r.standing, drawn.Stand...)
	after := func(volume float64) form.Line {
		return form.SurfaceAfter(r.face.section, r.base, drawn.Surface.Slope, volume, r.standing)
	}
	line := after(volume)
	displaced := form.Part{}
	for _, e := range drawn.Pressed {
		displaced = displaced.Plus(e.Under(drawn.Surface))
	}
	top := after(volume + r.face.section.Volume(displaced))
	for _, e := range drawn.Pressed {
		r.standing = append(r.standing, e.Moved(0, top.At-drawn.Surface.At))
	}
	r.base = top
	r.standing = slices.DeleteFunc(r.standing, func(e form.Outline) bool {
		return form.Cover(e, top) >= 0 // What is covered displaces nothing any more.
	})
	middle := r.face.section.Width() / 2
	return quantity.FromMillimetres(line.Height(middle)), quantity.FromMillimetres(top.Height(middle))
}

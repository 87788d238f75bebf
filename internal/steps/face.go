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
	length  float64
	layers  []form.Layer
}

// faceOf draws the loaf of a control recipe.
func faceOf(c recipe.Control) face {
	f := face{section: c.Mould.Section(), length: c.Mould.Length.Millimetres()}
	for _, l := range c.Recipe.Layers {
		f.layers = append(f.layers, l.Fill())
	}
	return f
}

// rise follows one loaf up through its layers: what was really poured decides
// where each surface lies.
type rise struct {
	face     face
	base     float64
	standing []form.Outline
}

// pour adds a layer's volume and gives the height before its embeds go in and
// after. The embeds keep their sink, so they settle with the surface.
func (r *rise) pour(layer int, millilitres float64) (pourLine, surface quantity.Length) {
	area := millilitres * 1000 / r.face.length
	drawn := r.face.layers[layer]
	line := form.SurfaceAfter(r.face.section, r.base, area, r.standing)
	displaced := 0.0
	for _, e := range drawn.Embeds {
		displaced += e.AreaBelow(drawn.Surface)
	}
	top := form.SurfaceAfter(r.face.section, r.base, area+displaced, r.standing)
	for _, e := range drawn.Embeds {
		r.standing = append(r.standing, moved(e, top-drawn.Surface))
	}
	r.base = top
	r.standing = slices.DeleteFunc(r.standing, func(e form.Outline) bool {
		_, _, _, highest := e.Box()
		return highest <= top // What is covered displaces nothing any more.
	})
	return quantity.FromMillimetres(line), quantity.FromMillimetres(top)
}

// moved gives the outline shifted up by dy.
func moved(o form.Outline, dy float64) form.Outline {
	switch o := o.(type) {
	case form.Circle:
		o.CY += dy
		return o
	case form.Ellipse:
		o.CY += dy
		return o
	case form.Rectangle:
		o.Bottom += dy
		o.Top += dy
		return o
	}
	return o
}

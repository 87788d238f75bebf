package steps

import (
	"bench/internal/calc"
	"bench/internal/quantity"
	"bench/internal/recipe"
)

// form is the geometry of one loaf as the recipe draws it, in millimetres.
type form struct {
	section calc.Section
	length  float64
	layers  []calc.Layer
}

// formOf draws the loaf of a control recipe.
func formOf(c recipe.Control) form {
	f := form{section: c.Mould.Section(), length: c.Mould.Length.Millimetres()}
	for _, l := range c.Recipe.Layers {
		f.layers = append(f.layers, l.Fill())
	}
	return f
}

// rise follows one loaf up through its layers: what was really poured decides
// where each surface lies.
type rise struct {
	form     form
	base     float64
	standing []calc.Outline
}

// pour adds a layer's volume and gives the height before its embeds go in and
// after. The embeds keep their sink, so they settle with the surface.
func (r *rise) pour(layer int, millilitres float64) (pourLine, surface quantity.Length) {
	area := millilitres * 1000 / r.form.length
	drawn := r.form.layers[layer]
	line := calc.SurfaceAfter(r.form.section, r.base, area, r.standing)
	displaced := 0.0
	for _, e := range drawn.Embeds {
		displaced += e.AreaBelow(drawn.Surface)
	}
	top := calc.SurfaceAfter(r.form.section, r.base, area+displaced, r.standing)
	for _, e := range drawn.Embeds {
		r.standing = append(r.standing, moved(e, top-drawn.Surface))
	}
	r.base = top
	return quantity.FromMillimetres(line), quantity.FromMillimetres(top)
}

// moved gives the outline shifted up by dy.
func moved(o calc.Outline, dy float64) calc.Outline {
	switch o := o.(type) {
	case calc.Circle:
		o.CY += dy
		return o
	case calc.Ellipse:
		o.CY += dy
		return o
	case calc.Rectangle:
		o.Bottom += dy
		o.Top += dy
		return o
	}
	return o
}

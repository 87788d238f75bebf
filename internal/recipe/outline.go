package recipe

import (
	"math"

	"bench/internal/form"
	"bench/internal/quantity"
)

// Outline gives the embed's outline on the cut face, when the surface that it
// sinks into lies at that height over its middle.
func (e Embed) Outline(surface quantity.Length) form.Outline {
	o := e.shape()
	left, bottom, right, _ := o.Box()
	return o.Moved(e.Across.Millimetres()-(left+right)/2, (surface-e.Sink).Millimetres()-bottom)
}

// Size gives the width and the height of the embed as it lies, turned.
func (e Embed) Size() (width, height quantity.Length) {
	left, bottom, right, top := e.shape().Box()
	return quantity.FromMillimetres(right - left), quantity.FromMillimetres(top - bottom)
}

// Area gives the area of the embed's outline in mm².
func (e Embed) Area() float64 { return form.Area(e.shape()) }

// shape gives the outline somewhere, mirrored and turned.
func (e Embed) shape() form.Outline {
	width, height := e.Width.Millimetres(), e.Height.Millimetres()
	turn := e.Turn.Degrees() * math.Pi / 180
	switch e.Shape {
	case Circle:
		return form.Circle{R: width / 2}
	case Ellipse:
		return form.Ellipse{RX: width / 2, RY: height / 2, Turn: turn}
	case Rectangle:
		r := form.Rectangle{Left: -width / 2, Right: width / 2, Top: height}
		if e.Turn == 0 {
			return r
		}
		return form.Polygon(r.Boundary()).Turned(turn)
	case Polygon, PathShape:
	}
	p := e.Polygon()
	if e.Mirror {
		p = p.Mirrored()
	}
	if e.Turn != 0 {
		p = p.Turned(turn)
	}
	return p
}

// Polygon gives the corners as they were drawn.
func (e Embed) Polygon() form.Polygon {
	corners := make([]form.Point, len(e.Corners))
	for i, c := range e.Corners {
		corners[i] = form.Point{X: c.X.Millimetres(), Y: c.Y.Millimetres()}
	}
	return form.NewPolygon(corners)
}

// Line gives the finished surface of the layer in a mould. The layer's Surface,
// which is its height in the middle, must be known, as it is in every control
// recipe.
func (l Layer) Line(m Mould) form.Line {
	return form.Through(form.Point{X: m.Section().Width() / 2, Y: l.Surface.Millimetres()}, m.slope(l.Propped))
}

// Fill gives the layer as form fills it in a mould.
func (l Layer) Fill(m Mould) form.Layer {
	fill := form.Layer{Surface: l.Line(m)}
	for _, e := range l.Embeds {
		over := quantity.FromMillimetres(fill.Surface.Height(e.Across.Millimetres()))
		fill.Embeds = append(fill.Embeds, form.Embed{Outline: e.Outline(over), Stands: e.Stood})
	}
	return fill
}

// Face gives the cut face as it is designed.
func (c Control) Face() form.Face {
	face := form.Face{Section: c.Mould.Section()}
	for i, fill := range c.Fills() {
		l := form.FaceLayer{Surface: fill.Surface, PourLine: fill.PourLine, Embeds: c.Recipe.Layers[i].Fill(c.Mould).Embeds}
		face.Layers = append(face.Layers, l)
	}
	return face
}

// SetSurfaces turns shares of a loaf of that height into heights of surfaces. In
// straight walls a share of the volume is one of the height.
func SetSurfaces(layers []Layer, m Mould, height quantity.Length) {
	section := m.Section()
	straight := section.Radius == 0 && section.Floor == section.Rim && section.Lean == 0
	whole := section.Volume(section.Outline().Under(form.Level(height.Millimetres())))
	var sum quantity.Ratio
	for i := range layers {
		sum += layers[i].Share
		if straight || sum >= quantity.Whole {
			layers[i].Surface = quantity.FromMillimetres(sum.Fraction() * height.Millimetres())
			continue
		}
		line := form.SurfaceAfter(section, form.Level(0), m.slope(layers[i].Propped), sum.Fraction()*whole, nil)
		layers[i].Surface = quantity.FromMillimetres(line.Height(section.Width() / 2))
	}
}

package recipe

import (
	"bench/internal/form"
	"bench/internal/quantity"
)

// Section gives the inside of the mould.
func (m Mould) Section() form.Section {
	return form.Straight(m.Width.Millimetres(), m.Height.Millimetres(), m.Length.Millimetres())
}

// Outline gives the embed's outline on the cut face, when the layer that holds
// it has its finished surface at that height.
func (e Embed) Outline(surface quantity.Length) form.Outline {
	bottom := (surface - e.Sink).Millimetres()
	across, width, height := e.Across.Millimetres(), e.Width.Millimetres(), e.Height.Millimetres()
	switch e.Shape {
	case Circle:
		return form.Circle{CX: across, CY: bottom + height/2, R: width / 2}
	case Ellipse:
		return form.Ellipse{CX: across, CY: bottom + height/2, RX: width / 2, RY: height / 2}
	case Rectangle:
		return form.Rectangle{Left: across - width/2, Bottom: bottom, Right: across + width/2, Top: bottom + height}
	}
	return form.Rectangle{}
}

// Fill gives the layer as calc fills it. The layer's surface must be known, as
// it is in every control recipe.
func (l Layer) Fill() form.Layer {
	fill := form.Layer{Surface: form.Level(l.Surface.Millimetres())}
	for _, e := range l.Embeds {
		fill.Pressed = append(fill.Pressed, e.Outline(l.Surface))
	}
	return fill
}

// surfaces turns shares of the loaf's height into heights of surfaces.
func surfaces(layers []Layer, height quantity.Length) {
	var sum quantity.Ratio
	for i := range layers {
		sum += layers[i].Share
		layers[i].Surface = quantity.FromMillimetres(sum.Fraction() * height.Millimetres())
	}
}

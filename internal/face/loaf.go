// Package face draws a loaf: its cut face as designed and as it fills, the loaf
// from the side, and the end of its mould at its real size.
//
// The rule: it shows what a plan says, and works out nothing of the trade. What
// is poured is solid, what is to come is an outline. Layers differ by colour, by
// pattern where there is none, and by name in any case.
package face

import "bench/internal/scene"

// Loaf is what a picture shows of a loaf, in millimetres: X from the left wall,
// Y up from the floor.
type Loaf struct {
	Title  string
	Mould  string
	Walls  []scene.Point // Walls are the inside of the mould's end, closed along the rim.
	Rim    float64       // Rim is the height of the mould.
	Length float64
	// Upright says that the loaf is drawn standing, from the side: its bars are
	// cut across, and show none of this at once.
	Upright bool
	Layers  []Layer // Layers are listed from the floor up.
	// Topping is the colour of what is scattered on the top, or nil, and Dusted
	// says that it is on.
	Topping *scene.Colour
	Dusted  bool
}

// Level is a surface: its height at X = 0, and how much it rises for each mm to
// the right.
type Level struct{ At, Slope float64 }

// where says where the height of a sloped surface is meant.
func (l Level) where() string {
	if l.Slope == 0 {
		return ""
	}
	return " in the middle"
}

// over gives the height of the surface at x.
func (l Level) over(x float64) float64 { return l.At + l.Slope*x }

// Layer is one pour, as far as it has come.
type Layer struct {
	Name     string
	Colour   scene.Colour
	Of       string // Of names what colours it, or is empty.
	PourLine Level  // PourLine is the surface before the embeds are pressed in.
	Finished Level
	Poured   bool
	Settled  bool          // Settled says that all its embeds are in, so it stands at Finished.
	Next     bool          // Next is the layer at hand.
	Line     *scene.Colour // Line is the colour of the mica line on its surface, or nil.
	Lined    bool          // Lined says that the line is on.
	Embeds   []Embed
}

// Embed is a stick of soap on the cut face.
type Embed struct {
	Name    string
	Outline []scene.Point
	Colour  scene.Colour
	In      bool
}

// stands gives where the layer's surface is now.
func (l Layer) stands() Level {
	if l.Settled {
		return l.Finished
	}
	return l.PourLine
}

// Finished gives the loaf as it is meant to become.
func (l Loaf) Finished() Loaf {
	layers := make([]Layer, len(l.Layers))
	for i, layer := range l.Layers {
		layer.Poured, layer.Settled, layer.Next, layer.Lined = true, true, false, layer.Line != nil
		layer.Embeds = append([]Embed(nil), layer.Embeds...)
		for n := range layer.Embeds {
			layer.Embeds[n].In = true
		}
		layers[i] = layer
	}
	l.Layers, l.Dusted = layers, l.Topping != nil
	return l
}

// mould gives the smallest box round the mould's inside.
func (l Loaf) mould() scene.Box { return scene.BoxOf(l.Walls) }

// middle gives the middle between the walls, where heights are meant.
func (l Loaf) middle() float64 { return (l.mould().Left + l.mould().Right) / 2 }

// soap gives the box round the finished loaf, with what stands proud of it.
func (l Loaf) soap() scene.Box {
	below := l.Walls
	if n := len(l.Layers); n > 0 {
		top := l.Layers[n-1].Finished
		below = scene.Below(below, top.At, top.Slope)
	}
	box := scene.BoxOf(below)
	for _, layer := range l.Layers {
		for _, e := range layer.Embeds {
			box = box.Around(scene.BoxOf(e.Outline))
		}
	}
	return box
}

// part gives what lies between two surfaces, within the walls. The lower one
// may be nil, for the floor.
func (l Loaf) part(from *Level, to Level) []scene.Point {
	outline := scene.Below(l.Walls, to.At, to.Slope)
	if from != nil {
		outline = scene.Above(outline, from.At, from.Slope)
	}
	return outline
}

// across gives the line of a surface from wall to wall.
func (l Loaf) across(level Level) []scene.Point {
	var ends []scene.Point
	n := len(l.Walls)
	for i, a := range l.Walls {
		b := l.Walls[(i+1)%n]
		p, q := a.Y-level.over(a.X), b.Y-level.over(b.X)
		if (p >= 0) == (q >= 0) {
			continue
		}
		t := p / (p - q)
		ends = append(ends, scene.Point{X: a.X + (b.X-a.X)*t, Y: a.Y + (b.Y-a.Y)*t})
	}
	if len(ends) != 2 {
		return nil // The surface lies over the rim.
	}
	if ends[0].X > ends[1].X {
		ends[0], ends[1] = ends[1], ends[0]
	}
	return ends
}

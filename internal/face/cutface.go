package face

import (
	"slices"

	"bench/internal/scene"
)

// Frame is what stands round a picture, and how large its writing is.
type Frame struct {
	letterW, letterH float64 // letterW and letterH are what a character takes, in mm.
	Tick             float64 // Tick is the least distance between the marks of a rule, in mm.
	Cells            bool    // Cells says that letters stand in the rows of a terminal.
	Rule             bool    // Rule draws a millimetre rule at the left and below.
	Names            bool    // Names writes each layer's name on it, where it fits.
	Heights          bool    // Heights writes how high each surface lies, where it fits.
	Mould            bool    // Mould shows the mould's walls, and all up to its rim.
}

// The margins of a picture with a rule, in letters: three figures, a mark, and
// the wall; marks and figures.
const (
	marginLeft  = 5
	marginBelow = 2
)

// seam is how far layers lie over the one below, in mm, so that no hair of
// ground shows between them.
const seam = 0.3

// How thick lines are, in mm.
const (
	thin = 0.25
	firm = 0.5
)

// shown gives the part of the loaf that a picture is about.
func (l Loaf) shown(f Frame) scene.Box {
	if f.Mould {
		return l.mould().Around(l.soap())
	}
	return l.soap()
}

// CutFace draws the cross-section: what is poured is solid, what is to come an
// outline, and embeds lie where they are or will be.
func (l Loaf) CutFace(f Frame) scene.Scene {
	shown := l.shown(f)
	s := scene.Scene{Title: l.Title, Box: shown}
	if f.Rule {
		s.Box.Left -= marginLeft * f.letterW
		s.Box.Bottom -= marginBelow * f.letterH
		rule(&s, f, shown)
	}
	l.pours(&s)
	l.toCome(&s)
	for i, layer := range l.Layers {
		for _, e := range layer.Embeds {
			s.Add(l.embed(i, e))
		}
	}
	if f.Mould {
		s.Add(l.walls(f))
	} else if !f.Cells && len(l.Layers) > 0 { // Pale soap would have no edge on paper.
		s.Add(scene.Shape{
			Name: "the bar", Points: l.part(nil, l.Layers[len(l.Layers)-1].stands()), Line: scene.Line{Width: thin, Colour: lines},
		})
	}
	if f.Names {
		l.names(&s, f)
	}
	if f.Heights {
		l.heights(&s, f)
	}
	return s
}

// pours fills what is poured, the highest first, so that each lies over the
// edge of the one above it.
func (l Loaf) pours(s *scene.Scene) {
	for i, layer := range slices.Backward(l.Layers) {
		if !layer.Poured {
			continue
		}
		var from *Level
		if i > 0 {
			below := l.Layers[i-1].stands()
			below.At -= seam
			from = &below
		}
		s.Add(scene.Shape{
			Name: layer.Name, Points: l.part(from, layer.stands()),
			Fill: scene.Fill{On: true, Colour: layer.Colour, Pattern: 1 + i},
		})
	}
	for _, layer := range l.Layers {
		if layer.Lined && layer.Poured {
			s.Add(l.dust("mica line on "+layer.Name, layer.stands(), *layer.Line))
		}
	}
	if l.Dusted && len(l.Layers) > 0 {
		s.Add(l.dust("topping", l.Layers[len(l.Layers)-1].stands(), *l.Topping))
	}
}

// dust draws what lies on a surface, as thick as it can be seen.
func (l Loaf) dust(name string, surface Level, colour scene.Colour) scene.Shape {
	from := Level{surface.At - firm, surface.Slope}
	return scene.Shape{Name: name, Points: l.part(&from, surface), Fill: scene.Fill{On: true, Colour: colour}}
}

// toCome draws where surfaces will lie: dashes for what they end at, and a firm
// line for what to pour to next.
func (l Loaf) toCome(s *scene.Scene) {
	for _, layer := range l.Layers {
		if !layer.Poured || !layer.Settled {
			s.Add(scene.Shape{
				Name: layer.Name + ", finished surface", Points: l.across(layer.Finished), Open: true,
				Line: scene.Line{Width: thin, Ink: true, Dash: 2},
			})
		}
		if layer.Next {
			s.Add(scene.Shape{
				Name: layer.Name + ", pour line", Points: l.across(layer.PourLine), Open: true,
				Line: scene.Line{Width: thin, Ink: true},
			})
		}
	}
}

// embed draws a stick: solid once it is in. The line round it is spared where
// its colour stands out by itself.
func (l Loaf) embed(layer int, e Embed) scene.Shape {
	shape := scene.Shape{Name: e.Name, Points: e.Outline}
	if !e.In {
		shape.Line = scene.Line{Width: thin, Ink: true}
		return shape
	}
	shape.Fill = scene.Fill{On: true, Colour: e.Colour}
	shape.Line = scene.Line{Width: firm, Colour: lines, Spare: true}
	for _, other := range l.Layers[layer:] {
		if near(other.Colour, e.Colour) {
			shape.Line.Spare = false
		}
	}
	return shape
}

// walls draws the mould from rim to rim, outside what it holds.
func (l Loaf) walls(f Frame) scene.Shape {
	line := scene.Line{Width: thin, Ink: true}
	return scene.Shape{Name: "mould " + l.Mould, Points: outside(l.Walls, l.Rim, f.letterW/4, f.letterH/4), Open: true, Line: line}
}

// outside gives the outline from rim to rim, without the rim itself, moved out
// by so much sideways and down. Walls are convex.
func outside(points []scene.Point, rim, dx, dy float64) []scene.Point {
	n := len(points)
	start := 0
	for i, p := range points { // The rim is the side that comes back from right to left.
		if q := points[(i+n-1)%n]; p.Y >= rim-1e-6 && q.Y >= rim-1e-6 && q.X > p.X {
			start = i
		}
	}
	box := scene.BoxOf(points)
	middle := (box.Left + box.Right) / 2
	var out []scene.Point
	for k := range n {
		p := points[(start+k)%n]
		switch {
		case p.X < middle:
			p.X -= dx
		case p.X > middle:
			p.X += dx
		}
		if p.Y < rim-1e-6 {
			p.Y -= dy
		}
		out = append(out, p)
	}
	return out
}

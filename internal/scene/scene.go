// Package scene is a drawing in millimetres: outlines, lines and words, and how
// they become pixels and SVG.
//
// The rule: plane shapes and nothing of soap. X goes right and Y goes up, as on
// a cut face; what draws downwards turns the drawing over itself. Everything is
// painted in order, so that what comes later lies on top.
package scene

// Point is a place on the drawing, in millimetres.
type Point struct{ X, Y float64 }

// Box is an upright rectangle in millimetres.
type Box struct{ Left, Bottom, Right, Top float64 }

// Width gives the box's width in mm.
func (b Box) Width() float64 { return b.Right - b.Left }

// Height gives the box's height in mm.
func (b Box) Height() float64 { return b.Top - b.Bottom }

// Around gives the smallest box that holds both.
func (b Box) Around(o Box) Box {
	return Box{min(b.Left, o.Left), min(b.Bottom, o.Bottom), max(b.Right, o.Right), max(b.Top, o.Top)}
}

// BoxOf gives the smallest box round the points; no points have an empty box.
func BoxOf(points []Point) Box {
	if len(points) == 0 {
		return Box{}
	}
	b := Box{points[0].X, points[0].Y, points[0].X, points[0].Y}
	for _, p := range points {
		b = b.Around(Box{p.X, p.Y, p.X, p.Y})
	}
	return b
}

// Scene is a drawing and the part of the plane that is in sight.
type Scene struct {
	Title  string
	Box    Box
	Shapes []Shape
	Labels []Label
}

// Shape is an outline that is filled, drawn as a line, or both.
type Shape struct {
	Name   string // Name says what it is, to those who cannot see it.
	Points []Point
	Open   bool // Open outlines end where they end, and are never filled.
	Fill   Fill
	Line   Line
}

// Fill is what an outline is filled with. The zero Fill fills nothing.
type Fill struct {
	On     bool
	Colour Colour
	// Pattern tells fills apart where there is no colour: equal numbers look
	// the same, and 0 is left blank.
	Pattern int
}

// Line is how an outline is drawn. The zero Line draws nothing.
type Line struct {
	Width float64 // Width is in mm; where it is less than a dot, a dot is drawn.
	// Ink draws in the colour of the page's writing, and over a fill in black
	// or white, whichever shows.
	Ink    bool
	Colour Colour
	Dash   float64 // Dash is the length of dashes and of gaps in mm; 0 is solid.
	// Spare says that the line is only for looks where there is colour: it may be
	// left out where dots are so coarse that it would eat up what it goes round.
	Spare bool
}

// Anchor says which point of a label its place is.
type Anchor int

// The anchors, along the line of writing.
const (
	Start Anchor = iota
	Middle
	End
)

// Label is a line of writing.
type Label struct {
	At     Point // At is half way up the letters.
	Text   string
	Size   float64 // Size is the height of a line in mm, which in a terminal is a cell.
	Anchor Anchor
	Bold   bool
	// On is the colour of the fill that the label stands on, if it stands on
	// one: it is then written in black or white, whichever shows.
	On *Colour
}

// Colour gives what the label is written in on paper.
func (l Label) Colour() Colour {
	if l.On == nil {
		return Colour{}
	}
	return l.On.Linear().Contrast()
}

// Baseline gives the height of the base line of the letters: about as far below
// their middle as half a capital is high, which is 0.7 of their size.
func (l Label) Baseline() float64 { return l.At.Y - 0.35*l.Type() }

// Type gives the size of the type (em) that lines of this size are set in.
func (l Label) Type() float64 { return l.Size / 1.25 }

// Add appends shapes to the drawing.
func (s *Scene) Add(shapes ...Shape) { s.Shapes = append(s.Shapes, shapes...) }

// Write appends labels to the drawing.
func (s *Scene) Write(labels ...Label) { s.Labels = append(s.Labels, labels...) }

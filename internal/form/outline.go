// Package form is the geometry of a loaf: outlines on its cross-section, how far
// they overlap, and how high a poured area rises around them.
//
// The rule: plane geometry in millimetres as float64. It knows no batter, no
// embed and no mould; what a height means is the caller's business.
package form

import "math"

// Point is a place in the cross-section of a loaf, in millimetres: X from the
// left wall, Y up from the floor.
type Point struct{ X, Y float64 }

// Outline is the closed outline of an embed in the cross-section.
type Outline interface {
	// AreaBelow gives the part of the outline's area below height y, in mm².
	AreaBelow(y float64) float64
	// Box gives the sides of the smallest upright rectangle round the outline.
	Box() (left, bottom, right, top float64)
	// Boundary gives points on the outline, anticlockwise, that a polygon can
	// be drawn through; curves are given as curvePoints of them.
	Boundary() []Point
}

// curvePoints on a curve keep the polygon within 0.008 % of its radius, which
// is 2 µm for an embed 50 mm across.
const curvePoints = 256

// Circle is a round embed.
type Circle struct{ CX, CY, R float64 }

// Ellipse is an oval embed with its axes level and upright.
type Ellipse struct{ CX, CY, RX, RY float64 }

// Rectangle is an upright embed with four corners.
type Rectangle struct{ Left, Bottom, Right, Top float64 }

func (c Circle) ellipse() Ellipse { return Ellipse{c.CX, c.CY, c.R, c.R} }

// AreaBelow is that of an ellipse with equal axes.
func (c Circle) AreaBelow(y float64) float64 { return c.ellipse().AreaBelow(y) }

// Box is the square round the circle.
func (c Circle) Box() (left, bottom, right, top float64) { return c.ellipse().Box() }

// Boundary starts at the rightmost point.
func (c Circle) Boundary() []Point { return c.ellipse().Boundary() }

// AreaBelow is the area of a segment of the unit circle below the height t,
// π/2 + arcsin t + t√(1−t²), stretched by both axes (elementary geometry).
func (e Ellipse) AreaBelow(y float64) float64 {
	if e.RX <= 0 || e.RY <= 0 {
		return 0
	}
	t := math.Max(-1, math.Min(1, (y-e.CY)/e.RY))
	return e.RX * e.RY * (math.Pi/2 + math.Asin(t) + t*math.Sqrt(1-t*t))
}

// Box touches the ellipse at the ends of its axes.
func (e Ellipse) Box() (left, bottom, right, top float64) {
	return e.CX - e.RX, e.CY - e.RY, e.CX + e.RX, e.CY + e.RY
}

// Boundary starts at the rightmost point.
func (e Ellipse) Boundary() []Point {
	points := make([]Point, curvePoints)
	for i := range points {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / curvePoints)
		points[i] = Point{e.CX + e.RX*cos, e.CY + e.RY*sin}
	}
	return points
}

// AreaBelow is the width times the height that is filled.
func (r Rectangle) AreaBelow(y float64) float64 {
	height := math.Min(y, r.Top) - r.Bottom
	return math.Max(0, r.Right-r.Left) * math.Max(0, height)
}

// Box is the rectangle itself.
func (r Rectangle) Box() (left, bottom, right, top float64) {
	return r.Left, r.Bottom, r.Right, r.Top
}

// Boundary starts at the lower left corner.
func (r Rectangle) Boundary() []Point {
	return []Point{{r.Left, r.Bottom}, {r.Right, r.Bottom}, {r.Right, r.Top}, {r.Left, r.Top}}
}

// AreaBetween gives the part of an outline's area between two heights, in mm²,
// and zero if they are the wrong way round.
func AreaBetween(o Outline, y0, y1 float64) float64 {
	if y1 <= y0 {
		return 0
	}
	return o.AreaBelow(y1) - o.AreaBelow(y0)
}

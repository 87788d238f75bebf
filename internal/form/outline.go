// Package form is the geometry of a loaf: outlines on its cross-section, how far
// they overlap, and how high a poured volume rises around them.
//
// The rule: plane geometry in millimetres as float64. It knows no batter and
// no recipe; what a height means is the caller's business. Every Outline and
// every Section can be drawn from the polygon that its Boundary gives.
package form

import "math"

// Point is a place in the cross-section of a loaf, in millimetres: X from the
// left wall, Y up from the floor.
type Point struct{ X, Y float64 }

// Line is a surface on the cross-section: At mm above the floor at X = 0, and
// rising by Slope mm for each mm to the right.
type Line struct{ At, Slope float64 }

// Level is the surface at one height.
func Level(y float64) Line { return Line{At: y} }

// Through is the surface of that slope through a point.
func Through(p Point, slope float64) Line { return Line{p.Y - slope*p.X, slope} }

// Height gives the height of the surface at x.
func (l Line) Height(x float64) float64 { return l.At + l.Slope*x }

// Part is a piece of the cross-section: its area in mm² and its first moment
// about the floor in mm³, which is the area times the height of its centroid.
type Part struct{ Area, Moment float64 }

// plus adds a piece.
func (p Part) plus(q Part) Part { return Part{p.Area + q.Area, p.Moment + q.Moment} }

// Less takes a piece away.
func (p Part) Less(q Part) Part { return Part{p.Area - q.Area, p.Moment - q.Moment} }

// Outline is a closed outline in the cross-section.
type Outline interface {
	// Under gives what of the outline lies under a surface.
	Under(l Line) Part
	// Box gives the sides of the smallest upright rectangle round the outline.
	Box() (left, bottom, right, top float64)
	// Boundary gives points on the outline, anticlockwise, that a polygon can
	// be drawn through; curves are given as curvePoints of them.
	Boundary() []Point
	// Moved gives the outline shifted to the right and up.
	Moved(dx, dy float64) Outline
}

// curvePoints on a curve keep the polygon within 0.008 % of its radius, which
// is 2 µm for an embed 50 mm across.
const curvePoints = 256

// Area gives the whole area of an outline in mm².
func Area(o Outline) float64 { return AreaBelow(o, math.Inf(1)) }

// AreaBelow gives the part of an outline's area below height y, in mm².
func AreaBelow(o Outline, y float64) float64 {
	_, _, _, top := o.Box()
	return o.Under(Level(math.Min(y, top))).Area
}

// AreaBetween gives the part of an outline's area between two heights, in mm²,
// and zero if they are the wrong way round.
func AreaBetween(o Outline, y0, y1 float64) float64 {
	if y1 <= y0 {
		return 0
	}
	return AreaBelow(o, y1) - AreaBelow(o, y0)
}

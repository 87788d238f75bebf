package form

import "math"

// maxSides bounds the sides that one curve is flattened to.
const maxSides = 4096

// Flatten gives the outline as a polygon whose sides keep within tolerance of
// its curves, in the path's own units. Y points up in the polygon, so the
// outline looks as it does in SVG. The corners lie on the curves.
func (p Path) Flatten(tolerance float64) Polygon {
	points := []Point{p.start}
	now := p.start
	for _, s := range p.pieces {
		switch s.kind {
		case 'C':
			points = append(points, s.flatCurve(now, tolerance)...)
		case 'A':
			points = append(points, s.flatArc(tolerance)...)
		}
		points = append(points, s.end)
		now = s.end
	}
	for i := range points {
		points[i].Y = -points[i].Y
	}
	return NewPolygon(points)
}

// flatCurve gives the points between the ends of a cubic curve. A chord over
// 1/n of it strays by at most |B″|/8n², and |B″| is at most six times the
// larger second difference of its points.
func (s piece) flatCurve(from Point, tolerance float64) []Point {
	d1 := math.Hypot(from.X-2*s.c1.X+s.c2.X, from.Y-2*s.c1.Y+s.c2.Y)
	d2 := math.Hypot(s.c1.X-2*s.c2.X+s.end.X, s.c1.Y-2*s.c2.Y+s.end.Y)
	n := sides(math.Sqrt(6 * math.Max(d1, d2) / (8 * tolerance)))
	points := make([]Point, 0, n)
	for i := 1; i < n; i++ {
		t := float64(i) / float64(n)
		u := 1 - t
		a, b, c, d := u*u*u, 3*u*u*t, 3*u*t*t, t*t*t
		points = append(points, Point{
			a*from.X + b*s.c1.X + c*s.c2.X + d*s.end.X,
			a*from.Y + b*s.c1.Y + c*s.c2.Y + d*s.end.Y,
		})
	}
	return points
}

// flatArc gives the points between the ends of an arc. A chord over an angle a
// strays by at most the longer radius times 1 − cos(a/2).
func (s piece) flatArc(tolerance float64) []Point {
	a := s.arc
	step := 2 * math.Acos(math.Max(0, 1-tolerance/math.Max(a.rx, a.ry)))
	n := sides(math.Abs(a.sweep) / step)
	points := make([]Point, 0, n)
	for i := 1; i < n; i++ {
		points = append(points, a.at(a.from+a.sweep*float64(i)/float64(n)))
	}
	return points
}

func sides(n float64) int {
	if !(n < maxSides) { // Also for a tolerance too small to divide by.
		return maxSides
	}
	return max(1, int(math.Ceil(n)))
}

// arc is part of an ellipse: its centre, its radii, the turn of its first axis,
// and the angles from which and over which it runs, in radians.
type arc struct {
	centre            Point
	rx, ry            float64
	turn, from, sweep float64
}

func (a arc) at(angle float64) Point {
	sin, cos := math.Sincos(angle)
	turnSin, turnCos := math.Sincos(a.turn)
	x, y := a.rx*cos, a.ry*sin
	return Point{a.centre.X + x*turnCos - y*turnSin, a.centre.Y + x*turnSin + y*turnCos}
}

// arcPiece finds the ellipse through two points with these radii (W3C, Scalable
// Vector Graphics 2, B.2.4, and B.2.5 for radii of zero or too small to reach).
func arcPiece(from Point, rx, ry, degrees float64, large, sweep bool, to Point) piece {
	rx, ry = math.Abs(rx), math.Abs(ry)
	if rx == 0 || ry == 0 || from == to {
		return piece{kind: 'L', end: to}
	}
	a := arc{rx: rx, ry: ry, turn: degrees * math.Pi / 180}
	sin, cos := math.Sincos(a.turn)
	dx, dy := (from.X-to.X)/2, (from.Y-to.Y)/2
	x, y := dx*cos+dy*sin, dy*cos-dx*sin
	if short := math.Hypot(x/rx, y/ry); short > 1 {
		a.rx, a.ry = rx*short, ry*short
	}
	along := math.Hypot(x/a.rx, y/a.ry)
	if along < 1e-12 { // The points are one, as far as the radii can tell.
		return piece{kind: 'L', end: to}
	}
	k := math.Sqrt(math.Max(0, 1-along*along)) / along
	if large == sweep {
		k = -k
	}
	cx, cy := k*a.rx*y/a.ry, -k*a.ry*x/a.rx
	a.centre = Point{cx*cos - cy*sin + (from.X+to.X)/2, cx*sin + cy*cos + (from.Y+to.Y)/2}
	a.from = math.Atan2((y-cy)/a.ry, (x-cx)/a.rx)
	a.sweep = math.Atan2((-y-cy)/a.ry, (-x-cx)/a.rx) - a.from
	if sweep && a.sweep < 0 {
		a.sweep += 2 * math.Pi
	} else if !sweep && a.sweep > 0 {
		a.sweep -= 2 * math.Pi
	}
	return piece{kind: 'A', arc: a, end: to}
}

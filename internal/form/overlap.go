package form

import (
	"cmp"
	"math"
	"slices"
)

// Overlaps tells whether two outlines touch, cross, or lie one inside the
// other. Curves count as the polygons of their Boundary, so two curves that
// only just touch may be called apart when the gap left by the polygons, at
// most 0.008 % of a radius each, comes between them.
func Overlaps(a, b Outline) bool {
	if boxesApart(a, b) {
		return false
	}
	p, q := a.Boundary(), b.Boundary()
	if len(p) == 0 || len(q) == 0 {
		return false
	}
	for i := range p {
		for j := range q {
			if segmentsMeet(p[i], p[(i+1)%len(p)], q[j], q[(j+1)%len(q)]) {
				return true
			}
		}
	}
	// No sides meet: one lies wholly inside the other, or they are apart.
	return inside(p[0], q) || inside(q[0], p)
}

func boxesApart(a, b Outline) bool {
	aLeft, aBottom, aRight, aTop := a.Box()
	bLeft, bBottom, bRight, bTop := b.Box()
	return aRight < bLeft || bRight < aLeft || aTop < bBottom || bTop < aBottom
}

// Crossing gives a place where a polygon's outline crosses, touches or runs
// back over itself, and false for one that does not. A polygon without such a
// place has one inside.
func Crossing(p Polygon) (Point, bool) {
	type side struct {
		a, b Point
		at   int
	}
	sides := make([]side, len(p))
	for i, a := range p {
		b := p[(i+1)%len(p)]
		if b.X < a.X {
			a, b = b, a
		}
		sides[i] = side{a, b, i}
	}
	slices.SortFunc(sides, func(s, t side) int { return cmp.Compare(s.a.X, t.a.X) })
	for i, s := range sides {
		for _, t := range sides[i+1:] { // Those further right begin beyond its end.
			if t.a.X > s.b.X {
				break
			}
			if at, ok := p.sidesCross(s.at, t.at); ok {
				return at, true
			}
		}
	}
	return Point{}, false
}

// sidesCross tells whether two sides meet elsewhere than in the corner that
// neighbours share.
func (p Polygon) sidesCross(i, j int) (Point, bool) {
	n := len(p)
	if (j+1)%n == i {
		i, j = j, i
	}
	a, b, c, d := p[i], p[(i+1)%n], p[j], p[(j+1)%n]
	if (i+1)%n != j {
		return meeting(a, b, c, d), segmentsMeet(a, b, c, d)
	}
	// Neighbours run back over each other if they are in one line and turn round.
	back := (b.X-a.X)*(d.X-c.X)+(b.Y-a.Y)*(d.Y-c.Y) < 0
	return b, n < 3 || turn(a, b, d) == 0 && back
}

// meeting gives where the lines of segments ab and cd meet, or a corner if they
// are parallel.
func meeting(a, b, c, d Point) Point {
	t := turn(c, d, a) / (turn(c, d, a) - turn(c, d, b))
	if math.IsNaN(t) || math.IsInf(t, 0) {
		return c
	}
	return Point{a.X + t*(b.X-a.X), a.Y + t*(b.Y-a.Y)}
}

// turn is positive if a, b, c go anticlockwise, negative if clockwise.
func turn(a, b, c Point) float64 {
	return (b.X-a.X)*(c.Y-a.Y) - (b.Y-a.Y)*(c.X-a.X)
}

// segmentsMeet tells whether segments ab and cd have a point in common.
func segmentsMeet(a, b, c, d Point) bool {
	if max(a.X, b.X) < min(c.X, d.X) || max(c.X, d.X) < min(a.X, b.X) ||
		max(a.Y, b.Y) < min(c.Y, d.Y) || max(c.Y, d.Y) < min(a.Y, b.Y) {
		return false
	}
	return turn(a, b, c)*turn(a, b, d) <= 0 && turn(c, d, a)*turn(c, d, b) <= 0
}

// inside counts the sides that a ray to the right crosses (even-odd rule).
func inside(p Point, polygon []Point) bool {
	in := false
	for i, a := range polygon {
		b := polygon[(i+1)%len(polygon)]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
	}
	return in
}

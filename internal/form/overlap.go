package form

// Overlaps tells whether two outlines touch, cross, or lie one inside the
// other. Curves count as the polygons of their Boundary, so two curves that
// only just touch may be called apart when the gap left by the polygons, at
// most 0.008 % of a radius each, comes between them.
func Overlaps(a, b Outline) bool {
	if boxesApart(a, b) {
		return false
	}
	p, q := a.Boundary(), b.Boundary()
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

package scene

// Above keeps the part of a closed outline that lies on or above the line
// y = at + slope·x, and Below the part on or under it (Sutherland and Hodgman
// 1974). The outline must be convex, or at least cut into one piece.
func Above(points []Point, at, slope float64) []Point {
	return keep(points, func(p Point) float64 { return p.Y - at - slope*p.X })
}

// Below is Above for the other side.
func Below(points []Point, at, slope float64) []Point {
	return keep(points, func(p Point) float64 { return at + slope*p.X - p.Y })
}

// keep cuts at the line where side is zero; side is linear.
func keep(points []Point, side func(Point) float64) []Point {
	var out []Point
	for i, a := range points {
		b := points[(i+1)%len(points)]
		p, q := side(a), side(b)
		if p >= 0 {
			out = append(out, a)
		}
		if (p >= 0) != (q >= 0) {
			t := p / (p - q)
			out = append(out, Point{a.X + (b.X-a.X)*t, a.Y + (b.Y-a.Y)*t})
		}
	}
	return out
}

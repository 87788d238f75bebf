package form

import (
	"math"
	"slices"
)

// Polygon is an outline with straight sides, anticlockwise, whose last corner
// is joined to the first. Make one with NewPolygon.
type Polygon []Point

// Rectangle is an upright outline with four corners.
type Rectangle struct{ Left, Bottom, Right, Top float64 }

// NewPolygon brings corners, in either direction, into the order that a
// Polygon has. Corners given twice in a row, and a last that repeats the first,
// are dropped.
func NewPolygon(corners []Point) Polygon {
	p := Polygon(slices.Compact(slices.Clone(corners)))
	for len(p) > 1 && p[0] == p[len(p)-1] {
		p = p[:len(p)-1]
	}
	if p.signed().Area < 0 {
		slices.Reverse(p)
	}
	return p
}

// Under clips the polygon with the half-plane under the line and measures what
// is left. Where the polygon is not convex the clipped pieces stay joined by
// sides along the line, there and back, which bound no area.
func (p Polygon) Under(l Line) Part {
	if len(p) == 0 {
		return Part{}
	}
	var clipped lace
	a := p[len(p)-1]
	da := a.Y - l.Height(a.X)
	for _, b := range p {
		db := b.Y - l.Height(b.X)
		if (da <= 0) != (db <= 0) {
			t := da / (da - db)
			clipped.through(Point{a.X + t*(b.X-a.X), a.Y + t*(b.Y-a.Y)})
		}
		if db <= 0 {
			clipped.through(b)
		}
		a, da = b, db
	}
	return clipped.signed()
}

// signed is the area and the moment, positive for an anticlockwise polygon.
func (p Polygon) signed() Part {
	var round lace
	for _, q := range p {
		round.through(q)
	}
	return round.signed()
}

// lace measures a polygon corner by corner, by the shoelace formula, taken from
// the first corner so that no digits are lost on small outlines far from the
// origin.
type lace struct {
	first, last Point // last is measured from first.
	begun       bool
	twice, six  float64 // twice the area, and six times its moment about the first corner.
}

func (l *lace) through(q Point) {
	if !l.begun {
		l.first, l.begun = q, true
		return
	}
	next := Point{q.X - l.first.X, q.Y - l.first.Y}
	cross := l.last.X*next.Y - next.X*l.last.Y
	l.twice += cross
	l.six += cross * (l.last.Y + next.Y)
	l.last = next
}

func (l *lace) signed() Part { return Part{l.twice / 2, l.six/6 + l.first.Y*l.twice/2} }

// Box goes through the outermost corners.
func (p Polygon) Box() (left, bottom, right, top float64) {
	left, bottom, right, top = math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, q := range p {
		left, right = math.Min(left, q.X), math.Max(right, q.X)
		bottom, top = math.Min(bottom, q.Y), math.Max(top, q.Y)
	}
	return left, bottom, right, top
}

// Boundary is the corners.
func (p Polygon) Boundary() []Point { return p }

// Moved shifts every corner.
func (p Polygon) Moved(dx, dy float64) Outline {
	return p.each(func(q Point) Point { return Point{q.X + dx, q.Y + dy} })
}

// Turned gives the polygon turned anticlockwise about the origin, by radians.
func (p Polygon) Turned(radians float64) Polygon {
	sin, cos := math.Sincos(radians)
	return p.each(func(q Point) Point { return Point{q.X*cos - q.Y*sin, q.X*sin + q.Y*cos} })
}

// Mirrored gives the polygon with left and right changed over, at X = 0.
func (p Polygon) Mirrored() Polygon {
	m := p.each(func(q Point) Point { return Point{-q.X, q.Y} })
	slices.Reverse(m)
	return m
}

// Scaled gives the polygon stretched from the origin by a factor above zero.
func (p Polygon) Scaled(factor float64) Polygon {
	return p.each(func(q Point) Point { return Point{q.X * factor, q.Y * factor} })
}

func (p Polygon) each(f func(Point) Point) Polygon {
	out := make(Polygon, len(p))
	for i, q := range p {
		out[i] = f(q)
	}
	return out
}

// polygon is nil for a rectangle turned inside out, which has no area.
func (r Rectangle) polygon() Polygon {
	if r.Right <= r.Left || r.Top <= r.Bottom {
		return nil
	}
	return Polygon{{r.Left, r.Bottom}, {r.Right, r.Bottom}, {r.Right, r.Top}, {r.Left, r.Top}}
}

// Under is that of a polygon.
func (r Rectangle) Under(l Line) Part { return r.polygon().Under(l) }

// Box is the rectangle itself.
func (r Rectangle) Box() (left, bottom, right, top float64) {
	return r.Left, r.Bottom, r.Right, r.Top
}

// Boundary starts at the lower left corner.
func (r Rectangle) Boundary() []Point { return r.polygon() }

// Moved shifts all sides.
func (r Rectangle) Moved(dx, dy float64) Outline {
	return Rectangle{r.Left + dx, r.Bottom + dy, r.Right + dx, r.Top + dy}
}

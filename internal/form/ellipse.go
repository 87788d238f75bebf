package form

import "math"

// Circle is a round outline.
type Circle struct{ CX, CY, R float64 }

// Ellipse is an oval outline. Its first axis is turned anticlockwise from the
// level by Turn, in radians.
type Ellipse struct{ CX, CY, RX, RY, Turn float64 }

func (c Circle) ellipse() Ellipse { return Ellipse{c.CX, c.CY, c.R, c.R, 0} }

// Under is that of an ellipse with equal axes.
func (c Circle) Under(l Line) Part { return c.ellipse().Under(l) }

// Box is the square round the circle.
func (c Circle) Box() (left, bottom, right, top float64) { return c.ellipse().Box() }

// Boundary starts at the rightmost point.
func (c Circle) Boundary() []Point { return c.ellipse().Boundary() }

// Moved shifts the centre.
func (c Circle) Moved(dx, dy float64) Outline { return Circle{c.CX + dx, c.CY + dy, c.R} }

// Under takes the ellipse and the line back to the unit circle, where the line
// cuts off a segment at distance t from the centre, on the side of the unit
// vector along (mx, my). The segment's area is π/2 + arcsin t + t√(1−t²), and
// its first moment along that vector −⅔(1−t²)^(3/2) (I. N. Bronshtein et al.,
// Handbook of Mathematics, segment of a circle and its centroid, from memory).
func (e Ellipse) Under(l Line) Part {
	if e.RX <= 0 || e.RY <= 0 {
		return Part{}
	}
	sin, cos := math.Sincos(e.Turn)
	mx, my := e.RX*(sin-l.Slope*cos), e.RY*(cos+l.Slope*sin)
	length := math.Hypot(mx, my)
	t := (l.Height(e.CX) - e.CY) / length
	t = math.Max(-1, math.Min(1, t))
	rest := 1 - t*t
	area := e.RX * e.RY * (math.Pi/2 + math.Asin(t) + t*math.Sqrt(rest))
	// How high a point of the unit circle lies grows along (RX sin, RY cos).
	rise := (e.RX*sin*mx + e.RY*cos*my) / length
	return Part{area, area*e.CY - e.RX*e.RY*rise*2/3*rest*math.Sqrt(rest)}
}

// Box touches the ellipse where its tangents are level and upright.
func (e Ellipse) Box() (left, bottom, right, top float64) {
	w, h := e.RX, e.RY
	if e.Turn != 0 {
		sin, cos := math.Sincos(e.Turn)
		w, h = math.Hypot(e.RX*cos, e.RY*sin), math.Hypot(e.RX*sin, e.RY*cos)
	}
	return e.CX - w, e.CY - h, e.CX + w, e.CY + h
}

// Boundary starts at the end of the first axis.
func (e Ellipse) Boundary() []Point {
	turnSin, turnCos := math.Sincos(e.Turn)
	points := make([]Point, curvePoints)
	for i := range points {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / curvePoints)
		u, v := e.RX*cos, e.RY*sin
		points[i] = Point{e.CX + u*turnCos - v*turnSin, e.CY + u*turnSin + v*turnCos}
	}
	return points
}

// Moved shifts the centre.
func (e Ellipse) Moved(dx, dy float64) Outline {
	e.CX += dx
	e.CY += dy
	return e
}

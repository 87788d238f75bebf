package form

import "math"

// Section is the inside of a mould: the cross-section that its bars show, and
// how long it is at each height. The floor is at height 0 and the left wall, at
// its widest, at 0. Make one with Straight, Leaning, Lying or Upright.
type Section struct {
	Floor, Rim float64 // Floor and Rim are the widths there; between them the walls are straight.
	Height     float64 // Height is that of the rim.
	Radius     float64 // Radius is that of a lying cylinder's wall; zero for flat walls.
	Long       float64 // Long is the length at the floor.
	Lean       float64 // Lean is what the length grows by for each mm of height, at both ends together.
}

// Straight is a box.
func Straight(width, height, length float64) Section {
	return Section{Floor: width, Rim: width, Height: height, Long: length}
}

// Leaning is a box whose walls lean, alike on both sides, and whose ends may
// lean too: a frustum of a pyramid with a rectangular floor.
func Leaning(floor, rim, height, floorLength, rimLength float64) Section {
	return Section{Floor: floor, Rim: rim, Height: height, Long: floorLength, Lean: (rimLength - floorLength) / height}
}

// Lying is a cylinder on its side, open along the top where the rim is lower
// than its diameter.
func Lying(diameter, height, length float64) Section {
	return Section{Radius: diameter / 2, Height: math.Min(height, diameter), Long: length}
}

// Upright is a standing cylinder, or a bucket if the diameters differ, seen
// from the side. A level slice is a disc, which has the area of a rectangle as
// wide as the disc and π/4 of that long.
func Upright(floorDiameter, rimDiameter, height float64) Section {
	return Leaning(floorDiameter, rimDiameter, height, math.Pi/4*floorDiameter, math.Pi/4*rimDiameter)
}

// Width gives the width at the widest.
func (s Section) Width() float64 {
	if s.Radius == 0 {
		return math.Max(s.Floor, s.Rim)
	}
	if s.Height >= s.Radius {
		return 2 * s.Radius
	}
	return 2 * s.chord()
}

// chord is half the width of a lying cylinder at its rim.
func (s Section) chord() float64 {
	up := s.Height - s.Radius
	return math.Sqrt(math.Max(0, s.Radius*s.Radius-up*up))
}

// Outline gives the cross-section, closed along the rim.
func (s Section) Outline() Outline {
	middle := s.Width() / 2
	if s.Radius > 0 {
		return bowl{Circle{middle, s.Radius, s.Radius}, s.Height, s.chord()}
	}
	return Polygon{
		{middle - s.Floor/2, 0},
		{middle + s.Floor/2, 0},
		{middle + s.Rim/2, s.Height},
		{middle - s.Rim/2, s.Height},
	}
}

// Boundary gives points on the cross-section, anticlockwise, that a polygon can
// be drawn through.
func (s Section) Boundary() []Point { return s.Outline().Boundary() }

// Volume gives the volume in mm³ of what shows as that part of the
// cross-section and reaches from end to end. The ends lean in straight lines, so
// it is the area times the length at the height of its centroid.
func (s Section) Volume(p Part) float64 { return s.Long*p.Area + s.Lean*p.Moment }

// Capacity gives the volume up to the rim in mm³.
func (s Section) Capacity() float64 { return s.Volume(s.Outline().Under(Level(s.Height))) }

// WallDistance gives the soap between an embed and the nearer wall in mm; it
// is negative for an embed that passes through the wall.
func WallDistance(s Section, o Outline) float64 {
	least := math.Inf(1)
	for _, p := range o.Boundary() {
		least = math.Min(least, s.wallDistance(p))
	}
	return least
}

func (s Section) wallDistance(p Point) float64 {
	fromMiddle := math.Abs(p.X - s.Width()/2)
	if s.Radius > 0 {
		return s.Radius - math.Hypot(fromMiddle, p.Y-s.Radius)
	}
	out := (s.Rim - s.Floor) / 2 // out is how far a wall leans outwards up to the rim.
	return (s.Floor/2 + out*p.Y/s.Height - fromMiddle) * s.Height / math.Hypot(out, s.Height)
}

// FloorDistance gives the soap under an embed in mm, negative through the floor.
func FloorDistance(o Outline) float64 {
	_, bottom, _, _ := o.Box()
	return bottom
}

// Cover gives the least height of soap over an embed in mm up to a surface; it
// is negative for an embed that stands proud of it.
func Cover(o Outline, surface Line) float64 {
	if surface.Slope == 0 {
		_, _, _, top := o.Box()
		return surface.At - top
	}
	least := math.Inf(1)
	for _, p := range o.Boundary() {
		least = math.Min(least, surface.Height(p.X)-p.Y)
	}
	return least
}

// Clear gives the least height of an embed over a surface in mm; it is
// negative for an embed that reaches below it.
func Clear(o Outline, surface Line) float64 {
	if surface.Slope == 0 {
		_, bottom, _, _ := o.Box()
		return bottom - surface.At
	}
	least := math.Inf(1)
	for _, p := range o.Boundary() {
		least = math.Min(least, p.Y-surface.Height(p.X))
	}
	return least
}

// bowl is what a lying cylinder holds up to its rim.
type bowl struct {
	circle Circle
	rim    float64
	chord  float64 // chord is half its width there.
}

// Under is exact for a surface that stays below the rim, and goes by the
// polygon of the Boundary for one that slopes out over it.
func (b bowl) Under(l Line) Part {
	if l.Slope == 0 {
		return b.circle.Under(Level(math.Min(l.At, b.rim)))
	}
	if math.Max(l.Height(b.circle.CX-b.chord), l.Height(b.circle.CX+b.chord)) <= b.rim {
		return b.circle.Under(l)
	}
	return Polygon(b.Boundary()).Under(l)
}

func (b bowl) Box() (left, bottom, right, top float64) {
	half := b.circle.R
	if b.rim < b.circle.CY {
		half = b.chord
	}
	return b.circle.CX - half, b.circle.CY - b.circle.R, b.circle.CX + half, b.rim
}

// Boundary runs down from the rim on the left, and up to it on the right.
func (b bowl) Boundary() []Point {
	up := math.Asin(math.Max(-1, math.Min(1, (b.rim-b.circle.CY)/b.circle.R)))
	points := make([]Point, curvePoints)
	for i := range points {
		sin, cos := math.Sincos(math.Pi - up + (math.Pi+2*up)*float64(i)/(curvePoints-1))
		points[i] = Point{b.circle.CX + b.circle.R*cos, b.circle.CY + b.circle.R*sin}
	}
	return points
}

func (b bowl) Moved(dx, dy float64) Outline {
	b.circle.CX += dx
	b.circle.CY += dy
	b.rim += dy
	return b
}

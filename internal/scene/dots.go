package scene

// Dot is one dot of a painted drawing.
type Dot struct {
	// Light is the fill's, mixed where outlines share the dot, and already
	// weakened by Solid.
	Light Linear
	Solid float64 // Solid is how much of the dot is filled, from 0 to 1.
	Ink   float64 // Ink is how much of it is covered by lines in ink.
	Top   int     // Top is the number of the shape that fills most of it, or -1.
	Drawn bool    // Drawn says that a line of any colour covers it.
}

// Dots is a drawing as w by h dots, row by row from the top.
type Dots struct {
	W, H int
	Dots []Dot
}

// At gives the dot in a column and a row.
func (d *Dots) At(x, y int) *Dot { return &d.Dots[y*d.W+x] }

// Paint paints what the box shows in so many dots, which need not be square.
func Paint(s Scene, w, h int) *Dots {
	d := &Dots{W: w, H: h, Dots: make([]Dot, w*h)}
	for i := range d.Dots {
		d.Dots[i].Top = -1
	}
	if w <= 0 || h <= 0 || s.Box.Width() <= 0 || s.Box.Height() <= 0 {
		return d
	}
	p := painter{d: d, g: newGrid(w, h), box: s.Box}
	p.perX, p.perY = float64(w)/s.Box.Width(), float64(h)/s.Box.Height()
	for i, shape := range s.Shapes {
		p.fill(i, shape)
		p.line(shape)
	}
	return d
}

type painter struct {
	d          *Dots
	g          *grid
	box        Box
	perX, perY float64 // perX and perY are dots a millimetre.
}

// fill lays a shape's colour over what is there.
func (p *painter) fill(number int, s Shape) {
	if !s.Fill.On || s.Open || len(s.Points) < 3 {
		return
	}
	light := s.Fill.Colour.Linear()
	p.g.clear()
	p.g.outline(p.turned(s.Points))
	p.g.each(func(x, y int, covered float64) {
		dot := p.d.At(x, y)
		dot.over(light, covered)
		if covered >= 0.5 {
			dot.Top, dot.Drawn = number, false
		}
	})
}

// over lays a colour over a share of the dot.
func (d *Dot) over(light Linear, covered float64) {
	for i := range d.Light {
		d.Light[i] = d.Light[i]*(1-covered) + light[i]*covered
	}
	d.Solid = d.Solid*(1-covered) + covered
	d.Ink *= 1 - covered
}

// turned gives points in dots, with Y down.
func (p *painter) turned(points []Point) []Point {
	out := make([]Point, len(points))
	for i, a := range points {
		out[i] = Point{(a.X - p.box.Left) * p.perX, (p.box.Top - a.Y) * p.perY}
	}
	return out
}

package scene

import "math"

// drawnFrom is how much of a dot a line must cover to be seen there.
const drawnFrom = 0.5

// line draws a shape's line: with a pen of its width where that is more than a
// dot, and else dot by dot, so that it is crisp.
func (p *painter) line(s Shape) {
	if s.Line.Width <= 0 || len(s.Points) < 2 {
		return
	}
	dot := max(1/p.perX, 1/p.perY)
	pieces, open := [][]Point{s.Points}, s.Open
	if s.Line.Dash > 0 {
		// Shorter dashes would run together.
		pieces, open = dashes(s.Points, s.Open, max(s.Line.Dash, 2*dot)), true
	}
	light := s.Line.Colour.Linear()
	draw := func(x, y int, covered float64) {
		dot := p.d.At(x, y)
		if s.Line.Ink {
			dot.Ink += (1 - dot.Ink) * covered
		} else {
			dot.over(light, covered)
		}
		dot.Drawn = dot.Drawn || covered >= drawnFrom
	}
	penX, penY := s.Line.Width*p.perX, s.Line.Width*p.perY
	for _, piece := range pieces {
		if penX <= 1 && penY <= 1 {
			p.walk(p.turned(piece), open, draw)
		}
	}
	if penX > 1 || penY > 1 {
		p.pen(pieces, open, max(penX, 1), max(penY, 1), draw)
	}
}

// pen draws with an upright oval pen, which keeps a line as wide in mm whatever
// the shape of a dot: stroked where the pen is a circle, and stretched back.
func (p *painter) pen(pieces [][]Point, open bool, penX, penY float64, draw func(x, y int, covered float64)) {
	p.g.clear()
	for _, piece := range pieces {
		points := p.turned(piece)
		for i := range points {
			points[i].X, points[i].Y = points[i].X/penX, points[i].Y/penY
		}
		for _, bar := range stroke(points, open, 1) {
			for i := range bar {
				bar[i].X, bar[i].Y = bar[i].X*penX, bar[i].Y*penY
			}
			p.g.outline(bar)
		}
	}
	p.g.each(draw)
}

// walk draws every dot that the line goes through, once, without the corners
// of the stairs.
func (p *painter) walk(points []Point, open bool, draw func(x, y int, covered float64)) {
	if !open {
		points = append(points, points[0])
	}
	var path [][2]int
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		steps := max(1, 2*math.Ceil(max(math.Abs(b.X-a.X), math.Abs(b.Y-a.Y)))) // Half a dot each.
		for k := range int(steps) + 1 {
			t := float64(k) / steps
			at := [2]int{into(a.X+(b.X-a.X)*t, p.d.W), into(a.Y+(b.Y-a.Y)*t, p.d.H)}
			if n := len(path); n == 0 || path[n-1] != at {
				path = append(path, at)
			}
		}
	}
	for i, at := range path {
		if i > 0 && i < len(path)-1 && stairs(path[i-1], path[i+1]) {
			path[i] = path[i-1] // Not drawn, and no corner for the next.
			continue
		}
		if at[0] >= 0 && at[0] < p.d.W && at[1] >= 0 && at[1] < p.d.H {
			draw(at[0], at[1], 1)
		}
	}
}

// stairs says that two dots touch by a corner, so the one between is not needed.
func stairs(a, b [2]int) bool {
	return max(a[0]-b[0], b[0]-a[0]) == 1 && max(a[1]-b[1], b[1]-a[1]) == 1
}

// into gives the dot that a place lies in. The far edge belongs to the last dot.
func into(x float64, n int) int {
	if x >= float64(n) && x < float64(n)+0.5 {
		return n - 1
	}
	return int(math.Floor(x))
}

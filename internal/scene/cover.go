package scene

import "math"

// grid collects how much of each dot an outline covers, by exact areas: every
// side adds to the dots that it crosses, and a running sum along the row does
// the rest. (The signed-area method of scan conversion; Levien 2013 describes
// it for letters.)
type grid struct {
	w, h int
	sums []float64 // sums has one dot more a row, for what leaves at the right.

	top, bottom int // top and bottom are the rows that were touched, bottom excluded.
}

func newGrid(w, h int) *grid {
	return &grid{w: w, h: h, sums: make([]float64, (w+1)*h), top: h}
}

// clear makes the grid empty again.
func (g *grid) clear() {
	clear(g.sums[g.top*(g.w+1) : max(g.top, g.bottom)*(g.w+1)])
	g.top, g.bottom = g.h, 0
}

// outline adds a closed outline, in dots, Y down. All outlines of one grid must
// turn the same way round, and then overlaps count once.
func (g *grid) outline(points []Point) {
	turn := 1.0
	if signedArea(points) < 0 {
		turn = -1
	}
	for i, a := range points {
		g.side(a, points[(i+1)%len(points)], turn)
	}
}

// side adds one side of an outline, row by row.
func (g *grid) side(a, b Point, turn float64) {
	if a.Y == b.Y {
		return
	}
	if a.Y > b.Y {
		a, b, turn = b, a, -turn
	}
	slope := (b.X - a.X) / (b.Y - a.Y)
	first, last := max(0, int(math.Floor(a.Y))), min(g.h, int(math.Ceil(b.Y)))
	for row := first; row < last; row++ {
		y0, y1 := max(a.Y, float64(row)), min(b.Y, float64(row+1))
		if y1 <= y0 {
			continue
		}
		g.top, g.bottom = min(g.top, row), max(g.bottom, row+1)
		g.span(row, a.X+(y0-a.Y)*slope, a.X+(y1-a.Y)*slope, (y1-y0)*turn)
	}
}

// span adds a piece of a side within one row, of that height: all dots right of
// it are covered so much more.
func (g *grid) span(row int, x0, x1, height float64) {
	if x0 > x1 {
		x0, x1 = x1, x0
	}
	edge := float64(g.w)
	sums := g.sums[row*(g.w+1) : (row+1)*(g.w+1)]
	if x1 <= 0 || x0 >= edge || x1-x0 < 1e-9 {
		x := min(max((x0+x1)/2, 0), edge)
		g.share(sums, x, x, height)
		return
	}
	// What sticks out at the left counts as on the edge, at the right not at all.
	per := height / (x1 - x0)
	if x0 < 0 {
		sums[0] += -x0 * per
		x0 = 0
	}
	x1 = min(x1, edge)
	for x := x0; x < x1; {
		next := min(x1, math.Floor(x)+1)
		g.share(sums, x, next, (next-x)*per)
		x = next
	}
}

// share adds a piece that lies within one dot: that dot gets what is right of
// the piece, and the dots after it get all.
func (g *grid) share(sums []float64, x0, x1, height float64) {
	col := min(int(x0), g.w)
	if col == g.w {
		sums[col] += height
		return
	}
	right := 1 - ((x0+x1)/2 - float64(col))
	sums[col] += height * right
	sums[col+1] += height * (1 - right)
}

// each calls do with every dot that is covered and by how much, up to 1.
func (g *grid) each(do func(x, y int, covered float64)) {
	for y := g.top; y < g.bottom; y++ {
		sum := 0.0
		for x, s := range g.sums[y*(g.w+1) : (y+1)*(g.w+1)-1] {
			sum += s
			if c := min(math.Abs(sum), 1); c > 1e-6 {
				do(x, y, c)
			}
		}
	}
}

// signedArea is positive for outlines that turn anticlockwise with Y up.
func signedArea(points []Point) float64 {
	twice := 0.0
	for i, a := range points {
		b := points[(i+1)%len(points)]
		twice += a.X*b.Y - b.X*a.Y
	}
	return twice / 2
}

package face

import (
	"math"
	"strconv"

	"bench/internal/scene"
)

// steps are the distances that marks and figures of a rule may have, in mm.
//
//nolint:gochecknoglobals // A table.
var distances = []float64{1, 2, 5, 10, 20, 50, 100, 200, 500}

// spaced gives the smallest distance that is at least so much, and holds whole
// ones of another.
func spaced(least, whole float64) float64 {
	for _, d := range distances {
		if d >= least && math.Mod(d, whole) == 0 {
			return d
		}
	}
	return distances[len(distances)-1]
}

// hair keeps marks on their side of a border, in mm.
const hair = 1e-3

// rule draws a millimetre rule at the left of the box and one below it, which
// both count from where the mould does. Marks are one length with figures and
// half of it without.
func rule(s *scene.Scene, f Frame, box scene.Box) {
	mark := spaced(f.Tick, 1)
	number := spaced(1.95*f.letterH, mark)
	for y := box.Bottom; y <= box.Top+1e-6; y += mark {
		long := 0.5
		if math.Mod(y-box.Bottom, number) < 1e-6 {
			long = 1
			s.Write(scene.Label{
				At: scene.Point{X: box.Left - 2.4*f.letterW, Y: between(y, box, f)}, Text: figure(y), Size: f.letterH, Anchor: scene.End,
			})
		}
		from, at := box.Left-f.letterW-hair, max(y, box.Bottom+hair)
		s.Add(tick(scene.Point{X: from - long*f.letterW, Y: at}, scene.Point{X: from, Y: at}))
	}
	mark = spaced(f.Tick*f.letterW/f.letterH*2, 1)
	number = spaced(4*f.letterW, mark)
	for x := math.Ceil(box.Left/mark-1e-6) * mark; x <= box.Right+1e-6; x += mark {
		long := 0.25
		if math.Mod(math.Abs(x), number) < 1e-6 {
			long = 0.5
			s.Write(scene.Label{
				At: scene.Point{X: x, Y: box.Bottom - 1.5*f.letterH}, Text: figure(x), Size: f.letterH, Anchor: scene.Middle,
			})
		}
		from := box.Bottom - f.letterH/2
		s.Add(tick(scene.Point{X: x, Y: from}, scene.Point{X: x, Y: from - long*f.letterH}))
	}
}

// between keeps a figure within the rows of a terminal: that of the floor stands
// beside the lowest, and that of the top beside the highest.
func between(y float64, box scene.Box, f Frame) float64 {
	if !f.Cells {
		return y
	}
	return min(max(y, box.Bottom+f.letterH/4), box.Top-f.letterH/4)
}

func tick(a, b scene.Point) scene.Shape {
	return scene.Shape{Points: []scene.Point{a, b}, Open: true, Line: scene.Line{Width: thin, Ink: true}}
}

func figure(mm float64) string { return strconv.Itoa(int(math.Round(mm))) }

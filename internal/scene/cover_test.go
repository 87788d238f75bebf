package scene

import (
	"image"
	"image/draw"
	"math"
	"testing"

	"golang.org/x/image/vector"
	"pgregory.net/rapid"
)

// star draws a polygon round a middle, which never crosses itself.
func star(t *rapid.T, w, h float64) []Point {
	n := rapid.IntRange(3, 12).Draw(t, "corners")
	x, y := rapid.Float64Range(0, w).Draw(t, "x"), rapid.Float64Range(0, h).Draw(t, "y")
	points := make([]Point, n)
	for i := range points {
		r := rapid.Float64Range(0.5, w).Draw(t, "r")
		sin, cos := math.Sincos(2 * math.Pi * (float64(i) + rapid.Float64Range(0, 0.9).Draw(t, "turn")) / float64(n))
		points[i] = Point{x + r*cos, y + r*sin}
	}
	return points
}

// What covers the dots adds up to the area of what lies within them, by the
// shoelace formula on the polygon clipped to the grid.
func TestCoverAddsUpToTheArea(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const w, h = 24, 17
		points := star(t, w, h)
		g := newGrid(w, h)
		g.outline(points)
		sum := 0.0
		g.each(func(_, _ int, c float64) { sum += c })
		inside := Above(Below(points, h, 0), 0, 0)
		inside = turnedOver(Above(Below(turnedOver(inside), w, 0), 0, 0))
		if want := area(inside); math.Abs(sum-want) > 1e-3 {
			t.Fatalf("dots are covered by %g, the outline has %g within them", sum, want)
		}
	})
}

// turnedOver swaps X and Y.
func turnedOver(points []Point) []Point {
	out := make([]Point, len(points))
	for i, p := range points {
		out[i] = Point{p.Y, p.X}
	}
	return out
}

// Dot by dot against golang.org/x/image/vector, which rounds to 1/255.
func TestCoverAgainstALibrary(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const w, h, wide = 24, 17, 600 // From 512 on it reckons in floating point.
		points := star(t, w, h)
		v := vector.NewRasterizer(wide, h)
		v.DrawOp = draw.Src
		v.MoveTo(float32(points[0].X), float32(points[0].Y))
		for _, p := range points[1:] {
			v.LineTo(float32(p.X), float32(p.Y))
		}
		v.ClosePath()
		want := image.NewAlpha(image.Rect(0, 0, wide, h))
		v.Draw(want, want.Bounds(), image.Opaque, image.Point{})
		got := make([]float64, w*h)
		g := newGrid(w, h)
		g.outline(points)
		g.each(func(x, y int, c float64) { got[y*w+x] = c })
		for i, c := range got {
			if math.Abs(255*c-float64(want.AlphaAt(i%w, i/w).A)) > 1.5 {
				t.Fatalf("dot %d, %d is covered by %.1f of 255, not %d", i%w, i/w, 255*c, want.AlphaAt(i%w, i/w).A)
			}
		}
	})
}

func TestAGridThatIsClearedIsEmpty(t *testing.T) {
	g := newGrid(5, 5)
	g.outline([]Point{{1, 1}, {9, 2}, {3, 9}})
	g.clear()
	g.each(func(x, y int, c float64) { t.Errorf("%d, %d is covered by %g", x, y, c) })
}

// Outlines that overlap count once, whichever way each turns.
func TestOverlapsCountOnce(t *testing.T) {
	g := newGrid(10, 10)
	g.outline([]Point{{1, 1}, {6, 1}, {6, 6}, {1, 6}})
	g.outline([]Point{{3, 3}, {3, 8}, {8, 8}, {8, 3}})
	sum := 0.0
	g.each(func(_, _ int, c float64) { sum += c })
	if sum != 25+25-9 {
		t.Errorf("%g dots are covered, not 41", sum)
	}
}

// area is that of a closed outline that does not cross itself, in mm².
func area(points []Point) float64 { return math.Abs(signedArea(points)) }

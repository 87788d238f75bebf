package scene

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func square(left, bottom, right, top float64) []Point {
	return []Point{{left, bottom}, {right, bottom}, {right, top}, {left, top}}
}

// Two neighbours share a dot in light, not in the numbers of sRGB: half black and
// half white is #bcbcbc (0.5 through IEC 61966-2-1), not #808080.
func TestSharedDotsMixInLight(t *testing.T) {
	s := Scene{Box: Box{0, 0, 1, 1}}
	s.Add(
		Shape{Points: square(0, 0, 1, 1), Fill: Fill{On: true, Colour: Colour{255, 255, 255}}},
		Shape{Points: square(0, 0, 0.5, 1), Fill: Fill{On: true}},
	)
	if got := Paint(s, 1, 1).At(0, 0).Light.Colour(); got != (Colour{0xbc, 0xbc, 0xbc}) {
		t.Errorf("got %s", got)
	}
}

func TestWhatComesLaterLiesOnTop(t *testing.T) {
	s := Scene{Box: Box{0, 0, 4, 4}}
	s.Add(
		Shape{Points: square(0, 0, 4, 4), Line: Line{Width: 1, Ink: true}},
		Shape{Points: square(0, 0, 4, 4), Fill: Fill{On: true, Colour: Colour{1, 2, 3}}},
	)
	for i, dot := range Paint(s, 8, 8).Dots {
		if dot.Ink != 0 || dot.Drawn || dot.Top != 1 || dot.Light.Colour() != (Colour{1, 2, 3}) {
			t.Fatalf("dot %d is %+v", i, dot)
		}
	}
}

// A thin line has no gaps: each dot of it touches the next, by a side or a
// corner, and it keeps within a dot of where it belongs.
func TestThinLinesHaveNoGaps(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		place := func(name string) Point {
			return Point{rapid.Float64Range(0, 70).Draw(t, name+" x"), rapid.Float64Range(0, 60).Draw(t, name+" y")}
		}
		a, b := place("a"), place("b")
		w, h := rapid.IntRange(5, 90).Draw(t, "w"), rapid.IntRange(5, 90).Draw(t, "h")
		s := Scene{Box: Box{0, 0, 70, 60}}
		s.Add(Shape{Points: []Point{a, b}, Open: true, Line: Line{Width: 1e-3, Ink: true}})
		d := Paint(s, w, h)
		dx, dy := math.Abs(b.X-a.X)/70*float64(w), math.Abs(b.Y-a.Y)/60*float64(h)
		n := 0
		for _, dot := range d.Dots {
			if dot.Drawn {
				n++
			}
		}
		if long := max(dx, dy); float64(n) < math.Floor(long) || float64(n) > long+2 {
			t.Fatalf("a line %.2f dots long has %d", long, n)
		}
	})
}

// A line with a width covers its length times its width, whatever the shape of
// a dot.
func TestAPenIsAsWideAsItSays(t *testing.T) {
	for _, across := range []int{100, 300} {
		s := Scene{Box: Box{0, 0, 10, 10}}
		s.Add(Shape{Points: []Point{{2, 3}, {8, 6}}, Open: true, Line: Line{Width: 1, Ink: true}})
		sum := 0.0
		for _, dot := range Paint(s, across, 100).Dots {
			sum += dot.Ink
		}
		got := sum * 100 / float64(across*100) // mm²
		want := math.Hypot(6, 3) + math.Pi/4   // With its round ends, which have eight sides.
		if math.Abs(got-want) > 0.1 {
			t.Errorf("%d dots across: the line covers %.2f mm², not %.2f", across, got, want)
		}
	}
}

func TestDashesAreHalfOfTheLine(t *testing.T) {
	pieces := dashes(square(0, 0, 20, 10), false, 2)
	long := 0.0
	for _, piece := range pieces {
		for i := 1; i < len(piece); i++ {
			long += math.Hypot(piece[i].X-piece[i-1].X, piece[i].Y-piece[i-1].Y)
		}
	}
	if math.Abs(long-30) > 1e-9 {
		t.Errorf("dashes are %g mm of 60", long)
	}
}

// A slope and its opposite part an outline in two that add up to it.
func TestAboveAndBelowAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		leaning := []Point{{5, 0}, {65, 0}, {70, 60}, {0, 60}}
		at, slope := rapid.Float64Range(-10, 70).Draw(t, "at"), rapid.Float64Range(-0.5, 0.5).Draw(t, "slope")
		sum := area(Above(leaning, at, slope)) + area(Below(leaning, at, slope))
		if math.Abs(sum-area(leaning)) > 1e-6 {
			t.Fatalf("parts add up to %g of %g", sum, area(leaning))
		}
	})
}

// A level line from wall to wall is in every column, and once, at any size.
func TestALevelLineIsInEveryColumn(t *testing.T) {
	for w := 3; w < 200; w++ {
		s := Scene{Box: Box{0, 0, 70, 10}}
		s.Add(Shape{Points: []Point{{0, 5.1}, {70, 5.1}}, Open: true, Line: Line{Width: 1e-3, Ink: true}})
		for x, dot := range Paint(s, w, 3).Dots[w : 2*w] {
			if !dot.Drawn {
				t.Fatalf("%d columns: %d is not drawn", w, x)
			}
		}
	}
}

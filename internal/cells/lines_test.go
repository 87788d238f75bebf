package cells

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"bench/internal/cells/shot"
	"bench/internal/scene"
)

func square(left, bottom, right, top float64) []scene.Point {
	return []scene.Point{{X: left, Y: bottom}, {X: right, Y: bottom}, {X: right, Y: top}, {X: left, Y: top}}
}

// harbour is a sea under a sky with a round moon and a leaning mast.
func harbour() scene.Scene {
	fill := func(r, g, b uint8, pattern int) scene.Fill {
		return scene.Fill{On: true, Colour: scene.Colour{R: r, G: g, B: b}, Pattern: pattern}
	}
	moon := make([]scene.Point, 64)
	for i := range moon {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / 64)
		moon[i] = scene.Point{X: 48 + 12*cos, Y: 42 + 9*sin}
	}
	s := scene.Scene{Box: scene.Box{Right: 70, Top: 60}}
	s.Add(
		scene.Shape{Points: square(0, 0, 70, 60), Fill: fill(0xa6, 0x70, 0x8c, 2)},
		scene.Shape{Points: square(0, 0, 70, 22.3), Fill: fill(0x2a, 0x6f, 0x7d, 1)},
		scene.Shape{Points: moon, Fill: fill(0xef, 0xe6, 0xd2, 0)},
		scene.Shape{Points: []scene.Point{{X: 12, Y: 5}, {X: 20, Y: 5}, {X: 30, Y: 55}, {X: 27, Y: 55}}, Fill: fill(0x3c, 0x38, 0x33, 3)},
	)
	return s
}

// legibility gives how far what a terminal shows is from the drawing: the root of
// the mean square of the distance in Oklab, on the pixels of a picture.
func legibility(t *testing.T, s scene.Scene, w, h int, look Look) float64 {
	t.Helper()
	img, err := shot.Paint(Lines(s, w, h, look), shot.Dark)
	if err != nil {
		t.Fatal(err)
	}
	want := scene.Paint(s, w*shot.CellW, h*shot.CellH)
	sum := 0.0
	for y := range want.H {
		for x := range want.W {
			c := img.RGBAAt(x+shot.CellW, y+shot.CellH/2)
			got := scene.Colour{R: c.R, G: c.G, B: c.B}.Linear().Perceived()
			sum += got.Apart(want.At(x, y).Light.Perceived())
		}
	}
	return math.Sqrt(sum / float64(want.W*want.H))
}

// Each finer pattern comes closer to the drawing, at every size; octants come
// closer than quadrants, and as near as sextants: a cell has two colours however
// finely it is divided. So nothing is lost by not choosing them unasked.
func TestFinerPatternsComeCloser(t *testing.T) {
	for _, size := range [][2]int{{20, 9}, {30, 13}, {60, 26}} {
		before, words := math.Inf(1), ""
		for _, p := range []Pattern{Halves, Quadrants, Sextants} {
			off := legibility(t, harbour(), size[0], size[1], Look{Pattern: p, Colours: True})
			words += fmt.Sprintf(" %s %.4f", p, off)
			if off >= before {
				t.Errorf("%v: %s is off by %.4f, the coarser one by %.4f", size, p, off, before)
			}
			before = off
		}
		octants := legibility(t, harbour(), size[0], size[1], Look{Pattern: Octants, Colours: True})
		if words += fmt.Sprintf(" octants %.4f", octants); octants > 1.1*before {
			t.Errorf("%v: octants are off by %.4f, sextants by %.4f", size, octants, before)
		}
		t.Log(size, words)
	}
}

// More colours come closer, and sixteen keep every fill apart.
func TestMoreColoursComeCloser(t *testing.T) {
	before := 0.0
	for _, c := range []Colours{True, TwoHundredFiftySix, Sixteen} {
		off := legibility(t, harbour(), 30, 13, Look{Pattern: Quadrants, Colours: c})
		if off <= before {
			t.Errorf("%d colours are off by %.4f, more by %.4f", c, off, before)
		}
		before = off
	}
}

func TestSixteenColoursKeepFillsApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var s scene.Scene
		colours := rapid.SliceOfNDistinct(rapid.Custom(func(t *rapid.T) scene.Colour {
			return scene.Colour{R: rapid.Byte().Draw(t, "r"), G: rapid.Byte().Draw(t, "g"), B: rapid.Byte().Draw(t, "b")}
		}), 1, 14, rapid.ID).Draw(t, "colours")
		for i, c := range colours {
			s.Add(scene.Shape{Fill: scene.Fill{On: true, Colour: c, Pattern: 1 + i}})
		}
		seen := map[int]int{}
		for i, n := range sixteenFor(s) {
			if other, ok := seen[n]; ok || n == 0 || n == 8 {
				t.Fatalf("fills %d and %d are both colour %d", i, other, n)
			}
			seen[n] = i
		}
		fewer := s
		fewer.Shapes = s.Shapes[:len(s.Shapes)-1]
		for i, n := range sixteenFor(fewer) {
			if sixteenFor(s)[i] != n {
				t.Fatalf("fill %d changes its colour when another comes", i)
			}
		}
	})
}

// Any two hatches differ in a quarter of their dots, or more: by darkness or by
// direction.
func TestHatchesDiffer(t *testing.T) {
	for a := range hatches {
		for b := range a {
			n := 0
			for i := range 64 {
				if hatches[a](i%8, i/8) != hatches[b](i%8, i/8) {
					n++
				}
			}
			if n < 8 || hatchLetters[a] == hatchLetters[b] {
				t.Errorf("hatches %d and %d differ in %d of 64 dots", a, b, n)
			}
		}
	}
}

// Without colour there is no control sequence at all, whatever is asked for.
func TestNoColourIsPlainText(t *testing.T) {
	for _, p := range Patterns() {
		if text := strings.Join(Lines(harbour(), 30, 13, Look{Pattern: p}), ""); strings.ContainsRune(text, '\x1b') {
			t.Errorf("%s has a control sequence", p)
		}
	}
}

// Every line is as wide as it was asked to be, and its style ends with it.
func TestLinesAreWhole(t *testing.T) {
	for _, p := range Patterns() {
		for _, c := range []Colours{None, Sixteen, TwoHundredFiftySix, True} {
			for _, line := range Lines(harbour(), 31, 12, Look{Pattern: p, Colours: c, Bold: true}) {
				if shot.Columns(line) != 31 || strings.ContainsRune(line, '\x1b') && !strings.HasSuffix(line, "\x1b[m") {
					t.Errorf("%s, %d colours: %q", p, c, line)
				}
			}
		}
	}
}

// A label stands where it belongs, never on another, and never with characters
// that take more than a cell or none.
func TestLabels(t *testing.T) {
	s := scene.Scene{Box: scene.Box{Right: 20, Top: 8}}
	s.Write(
		scene.Label{At: scene.Point{X: 2, Y: 7}, Text: "sea"},
		scene.Label{At: scene.Point{X: 20, Y: 5}, Text: "sky", Anchor: scene.End},
		scene.Label{At: scene.Point{X: 10, Y: 3}, Text: "mole", Anchor: scene.Middle},
		scene.Label{At: scene.Point{X: 4, Y: 7}, Text: "over it"},
		scene.Label{At: scene.Point{X: 1, Y: 1}, Text: "\u6d77"},
		scene.Label{At: scene.Point{X: 6, Y: 1}, Text: "e\u0301"},
		scene.Label{At: scene.Point{X: 9, Y: 1}, Text: "\x1b[2J"},
	)
	got := strings.Join(Lines(s, 20, 4, Look{Pattern: Plain}), "\n")
	want := "  sea               \n                 sky\n        mole        \n                    "
	if got != want {
		t.Errorf("the labels are\n%s", got)
	}
}

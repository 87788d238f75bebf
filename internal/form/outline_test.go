package form_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"bench/internal/form"
)

// draw gives any of the outlines, of 2 to 60 mm, somewhere in a mould.
func draw(t *rapid.T, label string) form.Outline {
	x := rapid.Float64Range(0, 90).Draw(t, label+" x")
	y := rapid.Float64Range(0, 90).Draw(t, label+" y")
	a := rapid.Float64Range(1, 30).Draw(t, label+" a")
	b := rapid.Float64Range(1, 30).Draw(t, label+" b")
	switch rapid.IntRange(0, 2).Draw(t, label+" kind") {
	case 0:
		return form.Circle{x, y, a}
	case 1:
		return form.Ellipse{x, y, a, b}
	default:
		return form.Rectangle{x - a, y - b, x + a, y + b}
	}
}

func TestWholeAndHalfAreas(t *testing.T) {
	for _, c := range []struct {
		name       string
		outline    form.Outline
		middle     float64
		whole      float64
		atQuarters float64 // area below half-way from the bottom to the middle
	}{
		// A segment of a circle of half the radius' height is
		// r²(π/3 − √3/4) (elementary geometry).
		{"circle", form.Circle{30, 40, 20}, 40, 400 * math.Pi, 400 * (math.Pi/3 - math.Sqrt(3)/4)},
		{"ellipse", form.Ellipse{30, 40, 25, 10}, 40, 250 * math.Pi, 250 * (math.Pi/3 - math.Sqrt(3)/4)},
		{"rectangle", form.Rectangle{10, 20, 50, 60}, 40, 1600, 400},
	} {
		_, bottom, _, top := c.outline.Box()
		near(t, c.name+" whole", c.outline.AreaBelow(top+1), c.whole, 1e-9)
		near(t, c.name+" none", c.outline.AreaBelow(bottom-1), 0, 1e-9)
		near(t, c.name+" half", c.outline.AreaBelow(c.middle), c.whole/2, 1e-9)
		near(t, c.name+" quarter up", c.outline.AreaBelow((bottom+c.middle)/2), c.atQuarters, 1e-9)
		near(t, c.name+" upper half", form.AreaBetween(c.outline, c.middle, math.Inf(1)), c.whole/2, 1e-9)
		near(t, c.name+" wrong way round", form.AreaBetween(c.outline, top, bottom), 0, 0)
	}
}

func TestOutlinesOfNoSizeHaveNoArea(t *testing.T) {
	for _, o := range []form.Outline{form.Circle{}, form.Ellipse{5, 5, 3, 0}, form.Rectangle{4, 4, 2, 9}} {
		near(t, "area", o.AreaBelow(100), 0, 0)
	}
}

// The area below a height, against the polygon through the boundary clipped
// by the half-plane and measured by the shoelace formula.
func TestAreaBelowAgainstClippedPolygon(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := draw(t, "outline")
		left, bottom, right, top := o.Box()
		y := rapid.Float64Range(bottom-5, top+5).Draw(t, "y")
		want := shoelace(clipBelow(o.Boundary(), y))
		near(t, "area", o.AreaBelow(y), want, 2e-4*(right-left)*(top-bottom))
		if o.AreaBelow(y+rapid.Float64Range(0, 10).Draw(t, "up")) < o.AreaBelow(y) {
			t.Fatal("the area falls with height")
		}
	})
}

func TestBoundaryStaysInItsBox(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := draw(t, "outline")
		left, bottom, right, top := o.Box()
		for _, p := range o.Boundary() {
			if p.X < left || p.X > right || p.Y < bottom || p.Y > top {
				t.Fatalf("%v lies outside its box", p)
			}
		}
	})
}

// clipBelow keeps what lies at or below y (Sutherland & Hodgman).
func clipBelow(polygon []form.Point, y float64) []form.Point {
	var out []form.Point
	for i, a := range polygon {
		b := polygon[(i+1)%len(polygon)]
		if a.Y <= y {
			out = append(out, a)
		}
		if (a.Y <= y) != (b.Y <= y) {
			out = append(out, form.Point{X: a.X + (y-a.Y)/(b.Y-a.Y)*(b.X-a.X), Y: y})
		}
	}
	return out
}

func shoelace(polygon []form.Point) float64 {
	var twice float64
	for i, a := range polygon {
		b := polygon[(i+1)%len(polygon)]
		twice += a.X*b.Y - b.X*a.Y
	}
	return twice / 2
}

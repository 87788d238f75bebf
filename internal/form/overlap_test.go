package form_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"bench/internal/form"
)

func TestOverlaps(t *testing.T) {
	moon := form.Circle{40, 40, 10}
	for _, c := range []struct {
		name string
		a, b form.Outline
		want bool
	}{
		{"crossing circles", moon, form.Circle{55, 40, 10}, true},
		{"touching circles", moon, form.Circle{60, 40, 10}, true},
		{"circles a hundredth apart", moon, form.Circle{60.01, 40, 10}, false},
		{"boxes cross, circles do not", moon, form.Circle{55, 55, 10}, false},
		{"one inside the other", moon, form.Circle{41, 40, 3}, true},
		{"the same twice", moon, moon, true},
		{"circle and a corner apart", moon, form.Rectangle{47.2, 47.2, 60, 60}, false},
		{"circle and a corner inside", moon, form.Rectangle{47, 47, 60, 60}, true},
		{"rectangle across, no corner inside", moon, form.Rectangle{20, 39, 60, 41}, true},
		{"rectangles sharing a side", form.Rectangle{0, 0, 10, 10}, form.Rectangle{10, 2, 20, 8}, true},
		{"crossed rectangles", form.Rectangle{0, 4, 10, 6}, form.Rectangle{4, 0, 6, 10}, true},
		{"ellipse within reach of its long axis only", form.Ellipse{20, 20, 15, 3, 0}, form.Circle{20, 28, 4}, false},
		{"ellipse crossed at its tip", form.Ellipse{20, 20, 15, 3, 0}, form.Circle{38, 20, 4}, true},
	} {
		if got := form.Overlaps(c.a, c.b); got != c.want {
			t.Errorf("%s: got %t", c.name, got)
		}
		if got := form.Overlaps(c.b, c.a); got != c.want {
			t.Errorf("%s, the other way round: got %t", c.name, got)
		}
	}
}

// Circles overlap when their centres are no further apart than both radii;
// the polygons may err by 0.008 % of each radius.
func TestOverlapOfCirclesAgainstTheirDistance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := func(label string) form.Circle {
			return form.Circle{
				rapid.Float64Range(0, 80).Draw(t, label+" x"),
				rapid.Float64Range(0, 80).Draw(t, label+" y"),
				rapid.Float64Range(1, 30).Draw(t, label+" r"),
			}
		}
		a, b := c("a"), c("b")
		gap := math.Hypot(a.CX-b.CX, a.CY-b.CY) - a.R - b.R
		if math.Abs(gap) < 8e-5*(a.R+b.R) {
			t.Skip("too close to call")
		}
		if got := form.Overlaps(a, b); got != (gap < 0) {
			t.Fatalf("got %t with a gap of %g mm", got, gap)
		}
	})
}

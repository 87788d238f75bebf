package form_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"bench/internal/form"
	"bench/internal/near"
)

// draw gives any of the outlines, of 2 to 60 mm, somewhere in a mould.
func draw(t *rapid.T, label string) form.Outline {
	x := rapid.Float64Range(0, 90).Draw(t, label+" x")
	y := rapid.Float64Range(0, 90).Draw(t, label+" y")
	a := rapid.Float64Range(1, 30).Draw(t, label+" a")
	b := rapid.Float64Range(1, 30).Draw(t, label+" b")
	switch rapid.IntRange(0, 3).Draw(t, label+" kind") {
	case 0:
		return form.Circle{x, y, a}
	case 1:
		return form.Ellipse{x, y, a, b, rapid.Float64Range(-4, 4).Draw(t, label+" turn")}
	case 2:
		return drawPolygon(t, label).Moved(x, y)
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
		{"ellipse", form.Ellipse{30, 40, 25, 10, 0}, 40, 250 * math.Pi, 250 * (math.Pi/3 - math.Sqrt(3)/4)},
		{"rectangle", form.Rectangle{10, 20, 50, 60}, 40, 1600, 400},
	} {
		_, bottom, _, top := c.outline.Box()
		near.To(t, c.name+" whole", form.AreaBelow(c.outline, top+1), c.whole, 1e-9)
		near.To(t, c.name+" none", form.AreaBelow(c.outline, bottom-1), 0, 1e-9)
		near.To(t, c.name+" half", form.AreaBelow(c.outline, c.middle), c.whole/2, 1e-9)
		near.To(t, c.name+" quarter up", form.AreaBelow(c.outline, (bottom+c.middle)/2), c.atQuarters, 1e-9)
		near.To(t, c.name+" upper half", form.AreaBetween(c.outline, c.middle, math.Inf(1)), c.whole/2, 1e-9)
		near.To(t, c.name+" wrong way round", form.AreaBetween(c.outline, top, bottom), 0, 0)
	}
}

func TestOutlinesOfNoSizeHaveNoArea(t *testing.T) {
	for _, o := range []form.Outline{form.Circle{}, form.Ellipse{5, 5, 3, 0, 0}, form.Rectangle{4, 4, 2, 9}} {
		near.To(t, "area", form.AreaBelow(o, 100), 0, 0)
	}
}

// What lies under a surface, against the polygon through the boundary.
func TestUnderAgainstPolygon(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := draw(t, "outline")
		left, bottom, right, top := o.Box()
		l := form.Line{At: rapid.Float64Range(bottom-25, top+25).Draw(t, "at"), Slope: rapid.Float64Range(-1, 1).Draw(t, "slope")}
		got, want := o.Under(l), form.NewPolygon(o.Boundary()).Under(l)
		box := (right - left) * (top - bottom)
		near.To(t, "area", got.Area, want.Area, 2e-4*box)
		near.To(t, "moment", got.Moment, want.Moment, 2e-4*box*(math.Abs(bottom)+math.Abs(top)))
		up := l
		up.At += rapid.Float64Range(0, 10).Draw(t, "up")
		if o.Under(up).Area < got.Area-1e-9 {
			t.Fatal("the area falls with height")
		}
	})
}

// A half-plane and its complement part an outline without loss: the moment of
// the whole is its area times the height of its centroid.
func TestWholeMoments(t *testing.T) {
	high := form.Level(1e3)
	for _, c := range []struct {
		name     string
		outline  form.Outline
		centroid float64
	}{
		{"circle", form.Circle{30, 40, 20}, 40},
		{"turned ellipse", form.Ellipse{30, 40, 25, 10, 0.7}, 40},
		{"rectangle", form.Rectangle{10, 20, 50, 60}, 40},
		// The centroid of a triangle lies at a third of its height.
		{"triangle", form.NewPolygon([]form.Point{{0, 10}, {20, 40}, {30, 10}}), 20},
	} {
		whole := c.outline.Under(high)
		near.Share(t, c.name, whole.Moment, whole.Area*c.centroid, 1e-12)
		near.Share(t, c.name+" area", whole.Area, form.Area(c.outline), 1e-12)
	}
	// A half disc's centroid lies 4r/3π from its side (elementary geometry).
	half := form.Circle{30, 40, 20}.Under(form.Level(40))
	near.Share(t, "half disc", half.Moment/half.Area, 40-4*20/(3*math.Pi), 1e-12)
	// Cut along a line through its centre, whatever the slope, an ellipse is halved.
	e := form.Ellipse{30, 40, 25, 10, 0.7}
	near.Share(t, "halved", e.Under(form.Through(form.Point{30, 40}, -1.3)).Area, math.Pi*250/2, 1e-12)
}

func TestBoundaryStaysInItsBox(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := draw(t, "outline")
		left, bottom, right, top := o.Box()
		for _, p := range o.Boundary() {
			if p.X < left-1e-9 || p.X > right+1e-9 || p.Y < bottom-1e-9 || p.Y > top+1e-9 {
				t.Fatalf("%v lies outside its box", p)
			}
		}
	})
}

// drawPolygon gives a star-shaped polygon round the origin, with three to
// twelve corners, some of which may point inwards.
func drawPolygon(t *rapid.T, label string) form.Polygon {
	n := rapid.IntRange(3, 12).Draw(t, label+" corners")
	corners := make([]form.Point, n)
	for i := range corners {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		r := rapid.Float64Range(2, 30).Draw(t, label+" r")
		corners[i] = form.Point{r * cos, r * sin}
	}
	return form.NewPolygon(corners)
}

package form_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"bench/internal/form"
	"bench/internal/near"
)

// volumeTo gives the volume up to a height as a loaf of one layer takes it.
func volumeTo(s form.Section, y float64) float64 {
	return form.FillLayers(s, []form.Layer{{Surface: form.Level(y)}})[0].Volume
}

// The closed formulas are those of I. N. Bronshtein et al., Handbook of
// Mathematics, section on solids (from memory): the frustum of a pyramid,
// h/3 (A + √(AB) + B), that of a cone, πh/3 (R² + Rr + r²), the obelisk, which
// is a box whose faces all lean, h/6 ((2a + c) b + (2c + a) d), and the
// lying cylinder filled to h, L (r² arccos((r−h)/r) − (r−h)√(2rh−h²)).
func TestMouldsAgainstClosedFormulas(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := func(name string) float64 { return rapid.Float64Range(10, 200).Draw(t, name) }
		a, b, c, d, h := size("a"), size("b"), size("c"), size("d"), size("h")
		part := rapid.Float64Range(0.05, 1).Draw(t, "part")
		y := part * h
		up := func(from, to float64) float64 { return from + (to-from)*part }

		obelisk := form.Leaning(a, c, h, b, d)
		near.Share(t, "obelisk", volumeTo(obelisk, y), y/6*((2*a+up(a, c))*b+(2*up(a, c)+a)*up(b, d)), 1e-9)
		pyramid := form.Leaning(a, a*c/h, h, b, b*c/h) // Both sides lean in the same proportion.
		floor, top := a*b, up(a, a*c/h)*up(b, b*c/h)
		near.Share(t, "frustum of a pyramid", volumeTo(pyramid, y), y/3*(floor+math.Sqrt(floor*top)+top), 1e-9)
		cone, r, big := form.Upright(a, c, h), a/2, up(a, c)/2
		near.Share(t, "frustum of a cone", volumeTo(cone, y), math.Pi*y/3*(big*big+big*r+r*r), 1e-9)
		near.Share(t, "cylinder", volumeTo(form.Upright(a, a, h), y), math.Pi*a*a/4*y, 1e-9)

		lying, r, y := form.Lying(a, a, b), a/2, part*a
		near.Share(t, "lying cylinder", volumeTo(lying, y), b*(r*r*math.Acos((r-y)/r)-(r-y)*math.Sqrt(2*r*y-y*y)), 1e-8)
		near.Share(t, "whole lying cylinder", lying.Capacity(), math.Pi*r*r*b, 1e-12)
		gutter := form.Lying(a, y, b)
		near.Share(t, "gutter", gutter.Capacity(), volumeTo(lying, y), 1e-9)
	})
}

// How high a poured volume rises is what takes that volume.
func TestSurfaceAfterUndoesVolume(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSection(t)
		y := rapid.Float64Range(1, 69).Draw(t, "y")
		slope := rapid.SampledFrom([]float64{0, 0.01, -0.01}).Draw(t, "slope")
		want := form.Through(form.Point{s.Width() / 2, y}, slope)
		volume := s.Volume(s.Outline().Under(want))
		got := form.SurfaceAfter(s, form.Level(0), slope, volume, nil)
		near.To(t, "surface", got.At, want.At, 1e-7)
	})
}

// A slope halves no volume: through the middle of straight walls it takes what
// the level surface takes.
func TestASlopeThroughTheMiddleTakesAsMuch(t *testing.T) {
	s := form.Straight(80, 70, 220)
	level, sloped := s.Outline().Under(form.Level(30)), s.Outline().Under(form.Through(form.Point{40, 30}, 0.3))
	near.Share(t, "area", sloped.Area, level.Area, 1e-12)
	if sloped.Moment <= level.Moment {
		t.Error("a sloped surface lies higher on average than a level one")
	}
}

func TestSectionsDrawnAsTheyAre(t *testing.T) {
	for _, c := range []struct {
		name string
		s    form.Section
	}{
		{"straight", form.Straight(70, 65, 220)},
		{"leaning", form.Leaning(60, 80, 65, 200, 220)},
		{"gutter", form.Lying(80, 30, 300)},
		{"pipe with a slot", form.Lying(80, 70, 300)},
	} {
		p := form.NewPolygon(c.s.Boundary())
		left, bottom, right, top := p.Box()
		near.To(t, c.name+" left", left, 0, 1e-2)
		near.To(t, c.name+" right", right, c.s.Width(), 1e-2)
		near.To(t, c.name+" floor", bottom, 0, 1e-2)
		near.To(t, c.name+" rim", top, c.s.Height, 1e-9)
		near.Share(t, c.name+" area", form.Area(p), form.Area(c.s.Outline()), 2e-4)
		oLeft, oBottom, oRight, oTop := c.s.Outline().Box()
		near.To(t, c.name+" box", math.Hypot(math.Hypot(oLeft-left, oBottom-bottom), math.Hypot(oRight-right, oTop-top)), 0, 2e-2)
	}
}

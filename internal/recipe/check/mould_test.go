package check

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"bench/internal/form"
	"bench/internal/quantity"
	"bench/internal/recipe"
)

func about(t interface {
	Helper()
	Errorf(string, ...any)
}, what string, got, want, tolerance float64,
) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %.6g, want %.6g ± %g", what, got, want, tolerance)
	}
}

// moulds of every kind, as a workshop states them, with what they hold in ml:
// by hand, or by the formula named beside it.
func everyMould() []struct {
	mould recipe.Mould
	holds float64
} {
	return []struct {
		mould recipe.Mould
		holds float64
	}{
		{recipe.Mould{Name: "straight", Length: 220 * mm, Width: 70 * mm, Height: 65 * mm}, 1001},
		{recipe.Mould{Name: "lined", Length: 224 * mm, Width: 74 * mm, Height: 67 * mm, Liner: 2 * mm}, 1001},
		{recipe.Mould{Name: "slab", Kind: recipe.SlabMould, Length: 400 * mm, Width: 300 * mm, Height: 30 * mm}, 3600},
		// An obelisk: h/6 ((2a + c) b + (2c + a) d).
		{recipe.Mould{Name: "leaning", Length: 240 * mm, Width: 90 * mm, Height: 60 * mm, FloorLength: 220 * mm, FloorWidth: 70 * mm}, 60. / 6 * ((140+90)*220 + (180+70)*240) / 1000},
		{recipe.Mould{Name: "pipe", Kind: recipe.CylinderMould, Diameter: 75 * mm, Height: 300 * mm}, math.Pi / 4 * 75 * 75 * 300 / 1000},
		{recipe.Mould{Name: "lined pipe", Kind: recipe.CylinderMould, Diameter: 77 * mm, Height: 301 * mm, Liner: mm}, math.Pi / 4 * 75 * 75 * 300 / 1000},
		{recipe.Mould{Name: "half pipe", Kind: recipe.LyingMould, Diameter: 100 * mm, Height: 50 * mm, Length: 400 * mm}, math.Pi / 8 * 100 * 100 * 400 / 1000},
		{recipe.Mould{Name: "whole pipe", Kind: recipe.LyingMould, Diameter: 100 * mm, Length: 400 * mm}, math.Pi / 4 * 100 * 100 * 400 / 1000},
		{recipe.Mould{Name: "scallops", Kind: recipe.CavityMould, Cavities: 6, Volume: 85 * quantity.Millilitre}, 510},
		// A litre of water weighs 998.2 g at 20 °C (CRC Handbook, from memory).
		{recipe.Mould{Name: "crock", Kind: recipe.CavityMould, HoldsWater: 998_200 * quantity.Milligram}, 1000},
	}
}

func TestCapacityOfEveryMould(t *testing.T) {
	for _, c := range everyMould() {
		if problems := Workshop(recipe.Workshop{Name: "sheds", Moulds: []recipe.Mould{c.mould}}); len(problems) > 0 {
			t.Errorf("%s: %v", c.mould.Name, problems)
		}
		about(t, c.mould.Name, c.mould.Inside().Capacity().Millilitres(), c.holds, 0.002)
		if in := c.mould.Inside(); in.Inside() != in {
			t.Errorf("%s: the inside of an inside is another: %+v", c.mould.Name, in.Inside())
		}
	}
}

// A liner stands square on a leaning wall: what is left inside keeps its slope,
// and everywhere the liner's distance to the wall.
func TestLinerInALeaningMould(t *testing.T) {
	bare := recipe.Mould{Length: 240 * mm, Width: 90 * mm, Height: 60 * mm, FloorWidth: 60 * mm, Kind: recipe.LoafMould}
	lined := bare
	lined.Liner = 3 * mm
	in := lined.Inside()
	about(t, "slope of the wall", float64(in.Width-in.FloorWidth)/float64(in.Height), float64(bare.Width-bare.FloorWidth)/float64(bare.Height), 1e-4)
	outer := bare.Section()
	corner := form.Point{X: 45 - in.FloorWidth.Millimetres()/2, Y: 3} // in the bare mould
	about(t, "distance to the wall", form.WallDistance(outer, form.Polygon{corner, corner, corner}), 3, 2e-3)
	about(t, "length", in.Length.Millimetres(), 234, 0)
}

// 0.40 oz of oils fill a cubic inch, within 5 % at a lye concentration of 33 %
// and 3 % of scent (common practice, no source), whatever the mould.
func TestOilsOfEveryMouldAgainstTheRule(t *testing.T) {
	const ounce, cubicInch = 28.349523125, 16.387064 // g and ml, exact.
	for _, c := range everyMould() {
		w := harbour()
		w.Moulds = []recipe.Mould{c.mould}
		r := wall()
		r.Loaves = 1
		for i := range r.Layers {
			r.Layers[i] = recipe.Layer{Name: r.Layers[i].Name, Share: quantity.Whole / 2, Scents: []recipe.Scent{{Material: "sea air", Rate: 3 * quantity.Percent}}}
		}
		control, problems := Resolve(r, "text", w, 0)
		if len(problems) > 0 {
			t.Fatal(c.mould.Name, problems)
		}
		grams := 0.0
		for i, need := range control.OilsNeeded(control.Mixtures()) {
			grams += need - control.Clinging(i).Grams()/control.Mixture(i).Total
		}
		rule := 0.40 * ounce / cubicInch * c.holds
		about(t, c.mould.Name, grams/rule, 1, 0.05)
	}
}

// Shares are of the volume: in a mould that leans or is round the layers are of
// the same weight all the same, though not of the same height.
func TestSharesAreOfTheVolume(t *testing.T) {
	for _, c := range everyMould() {
		layers := []recipe.Layer{{Share: quantity.Whole / 4}, {Share: quantity.Whole / 4}, {Share: quantity.Whole / 2}}
		m := c.mould.Inside()
		recipe.SetSurfaces(layers, m, m.Height)
		control := recipe.Control{Mould: m, Recipe: recipe.Recipe{Layers: layers}}
		fills := control.Fills()
		for i, part := range []float64{0.25, 0.25, 0.5} {
			about(t, c.mould.Name, fills[i].Volume/1000/c.holds, part, 2e-5)
		}
	}
}

// With 2.9 kg of oils at hand the loaves become lower, all layers alike, and
// the batters use what there is, to the milligram.
func TestOilsAtHand(t *testing.T) {
	for _, oils := range []quantity.Mass{1 * quantity.Kilogram, 1_234_567 * quantity.Milligram} {
		full, _ := Resolve(wall(), "text", harbour(), 0)
		control, problems := ResolveOils(wall(), "text", harbour(), 0, oils)
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		var sum quantity.Mass
		for _, b := range control.Recipe.Batters {
			sum += b.OilWeight
		}
		if sum != oils {
			t.Errorf("%s of oils in the batters, %s at hand", sum, oils)
		}
		need := 0.0
		for _, grams := range control.OilsNeeded(control.Mixtures()) {
			need += grams
		}
		about(t, "oils of that fill", need, oils.Grams(), oils.Grams()/300)
		a, b := control.Recipe.Layers, full.Recipe.Layers
		about(t, "proportion", float64(a[0].Surface)/float64(a[1].Surface), float64(b[0].Surface)/float64(b[1].Surface), 1e-3)
	}
	for oils, want := range map[quantity.Mass]string{
		9 * quantity.Kilogram: "is more than 2 moulds \"harbour loaf\" hold: give ",
		quantity.Gram:         "too little to pour 2 loaves",
	} {
		if _, problems := ResolveOils(wall(), "text", harbour(), 0, oils); len(problems) != 1 || !strings.Contains(problems[0].Text, want) {
			t.Errorf("%s: %v", oils, problems)
		}
	}
}

// A mould 70 mm wide that stands 7 mm higher on the left is turned by the angle
// whose sine is 7/70, and what was level then is lower there.
func TestPropping(t *testing.T) {
	m := harbour().Moulds[0]
	l := recipe.Layer{Surface: 30 * mm, Propped: recipe.Propping{By: 7 * mm, Side: recipe.LeftSide}}
	line := l.Line(m)
	tan := 0.1 / math.Sqrt(1-0.01)
	about(t, "left wall", line.Height(0), 30-35*tan, 1e-9)
	about(t, "right wall", line.Height(70), 30+35*tan, 1e-9)
	l.Propped.Side = recipe.RightSide
	about(t, "propped on the right", l.Line(m).Height(0), 30+35*tan, 1e-9)
}

// What stands in place stands on what is there: the floor, or the layer below
// where that is sloped.
func TestStoodEmbedsStand(t *testing.T) {
	r := wall()
	post := recipe.Embed{Name: "post", Shape: recipe.Rectangle, Width: 8 * mm, Height: 20 * mm, Across: 24 * mm, Stood: true}
	mast := recipe.Embed{Name: "mast", Shape: recipe.Circle, Width: 10 * mm, Height: 10 * mm, Across: 50 * mm, Stood: true}
	r.Layers[0].Embeds, r.Layers[1].Embeds = []recipe.Embed{post}, []recipe.Embed{mast}
	r.Layers[0].Propped = recipe.Propping{By: 7 * mm, Side: recipe.RightSide}
	c, problems := Resolve(r, "text", harbour(), 0)
	if len(c.Recipe.Layers) == 0 {
		t.Fatal(problems)
	}
	face := c.Face()
	about(t, "post on the floor", form.Clear(face.Layers[0].Embeds[0], form.Level(0)), 0, 1e-3)
	about(t, "mast on the slope", form.Clear(face.Layers[1].Embeds[0], face.Layers[0].Surface), 0, 2e-3)
	if !face.Layers[0].Embeds[0].Stands {
		t.Error("the post does not stand")
	}
}

// Whatever a recipe that is accepted describes, its layers and embeds are the
// mould's cross-section up to the top, and their volumes what it holds.
func TestLayersAndEmbedsFillTheMould(t *testing.T) {
	moulds := everyMould()
	accepted := 0
	rapid.Check(t, func(t *rapid.T) {
		w := harbour()
		w.Moulds = []recipe.Mould{moulds[rapid.IntRange(0, 7).Draw(t, "mould")].mould}
		height := w.Moulds[0].Inside().Height
		r := wall()
		r.Loaves = 1
		for i := range r.Layers {
			l := &r.Layers[i]
			l.Surface = height * quantity.Length(i+1) / 3
			if !w.Moulds[0].Inside().Lies() {
				continue
			}
			if rapid.Bool().Draw(t, "slope") {
				l.Propped = recipe.Propping{By: quantity.Length(rapid.IntRange(1, 4).Draw(t, "by")) * mm, Side: rapid.SampledFrom([]recipe.Side{recipe.LeftSide, recipe.RightSide}).Draw(t, "side")}
			}
			size := quantity.Length(rapid.IntRange(4, 8).Draw(t, "size")) * mm
			l.Embeds = []recipe.Embed{{
				Name: "e", Shape: rapid.SampledFrom([]recipe.Shape{recipe.Circle, recipe.Ellipse, recipe.Rectangle, recipe.Polygon}).Draw(t, "shape"), Width: size, Height: size,
				Corners: []recipe.Corner{{X: 0, Y: 0}, {X: size, Y: 0}, {X: size / 2, Y: size}},
				Turn:    quantity.Angle(rapid.IntRange(0, 359).Draw(t, "turn")) * quantity.AngleDegree, Mirror: rapid.Bool().Draw(t, "mirror"),
				Across: w.Moulds[0].Inside().Width * quantity.Length(40+20*i) / 100,
				Sink:   quantity.Length(rapid.IntRange(2, 8).Draw(t, "sink")) * mm, Proud: true,
			}}
			if rapid.Bool().Draw(t, "stood") {
				l.Embeds[0].Stood, l.Embeds[0].Sink = true, 0
			}
		}
		c, _ := Resolve(r, "text", w, 0)
		if len(c.Recipe.Layers) == 0 {
			t.Skip("refused")
		}
		accepted++
		var area, volume float64
		face, fills := c.Face(), c.Fills()
		top := face.Layers[len(face.Layers)-1].Surface
		for i, l := range face.Layers {
			area, volume = area+fills[i].Area, volume+fills[i].Volume
			for _, e := range l.Embeds {
				area, volume = area+e.Under(top).Area, volume+face.Section.Volume(e.Under(top))
			}
		}
		want := face.Section.Outline().Under(top)
		about(t, "area", area, want.Area, 1e-9*want.Area)
		about(t, "volume", volume, face.Section.Volume(want), 1e-9*volume)
	})
	if accepted < 10 {
		t.Errorf("only %d recipes were accepted", accepted)
	}
}

package form_test

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"bench/internal/form"
	"bench/internal/near"
)

// mould is one millimetre long, so that its volumes in mm³ are areas in mm².
var mould = form.Straight(80, 70, 1)

func pressed(o form.Outline) []form.Embed { return []form.Embed{{Outline: o}} }

func stood(o form.Outline) []form.Embed { return []form.Embed{{Outline: o, Stands: true}} }

// A loaf whose numbers can be worked out by hand: a square lighthouse 20 mm
// wide stands from 10 to 50 mm, held by the sea, whose surface is at 30 mm.
func TestLighthouseByHand(t *testing.T) {
	lighthouse := form.Rectangle{30, 10, 50, 50}
	got := form.FillLayers(mould, []form.Layer{
		{Surface: form.Level(30), Embeds: pressed(lighthouse)},
		{Surface: form.Level(60)},
	})
	sea, dusk := got[0], got[1]
	near.To(t, "sea", sea.Area, 80*30-20*20, 1e-9)
	near.To(t, "sea's pour line", sea.PourLine.At, 2000./80, 1e-9) // before the lighthouse is pressed in
	near.To(t, "dusk", dusk.Area, 80*30-20*20, 1e-9)
	near.To(t, "dusk's pour line", dusk.PourLine.At, 60, 1e-9) // the lighthouse stands there already
}

// Stood in place on the floor first, the same lighthouse lifts the line.
func TestLighthouseStoodInPlace(t *testing.T) {
	got := form.FillLayers(mould, []form.Layer{{Surface: form.Level(30), Embeds: stood(form.Rectangle{30, 0, 50, 40})}})
	near.To(t, "sea", got[0].Area, 60*30, 1e-9)
	near.To(t, "pour line", got[0].PourLine.At, 30, 1e-9)
}

func TestEmbedPressedIntoTheTopRaisesIt(t *testing.T) {
	moon := form.Circle{40, 50, 10}
	got := form.FillLayers(mould, []form.Layer{{Surface: form.Level(30)}, {Surface: form.Level(65), Embeds: pressed(moon)}})
	near.To(t, "lower pour line", got[0].PourLine.At, 30, 1e-9)
	near.To(t, "upper pour line", got[1].PourLine.At, 65-100*math.Pi/80, 1e-9)
}

// A tower through three layers displaces in each as much as stands in it.
func TestEmbedThroughThreeLayers(t *testing.T) {
	tower := form.Rectangle{30, 5, 50, 55}
	got := form.FillLayers(mould, []form.Layer{
		{Surface: form.Level(20), Embeds: pressed(tower)}, {Surface: form.Level(40)}, {Surface: form.Level(60)},
	})
	for i, want := range []float64{80*20 - 20*15, 60 * 20, 80*20 - 20*15} {
		near.To(t, "batter", got[i].Area, want, 1e-9)
	}
}

// A mould propped by 7 mm across gives a wedge below and its like above.
func TestSlopedBoundaryByHand(t *testing.T) {
	slope := form.Through(form.Point{40, 30}, 0.1)
	got := form.FillLayers(mould, []form.Layer{{Surface: slope}, {Surface: form.Level(60)}})
	near.To(t, "below", got[0].Area, 80*30, 1e-9)
	near.To(t, "above", got[1].Area, 80*30, 1e-9)
	near.To(t, "line at the left wall", got[0].PourLine.Height(0), 26, 1e-9)
	near.To(t, "line at the right wall", got[0].PourLine.Height(80), 34, 1e-9)
	near.To(t, "slope", got[0].PourLine.Slope, 0.1, 0)
	near.To(t, "level again", got[1].PourLine.Slope, 0, 0)
}

func TestLayerOutOfOrderTakesNoBatter(t *testing.T) {
	got := form.FillLayers(mould, []form.Layer{{Surface: form.Level(30)}, {Surface: form.Level(20)}})
	near.To(t, "area", got[1].Area, 0, 0)
	near.To(t, "volume", got[1].Volume, 0, 0)
}

func TestSurfaceAfterRoundAStandingEmbed(t *testing.T) {
	stick := pressed(form.Rectangle{0, 0, 40, 20})
	floor := form.Level(0)
	near.To(t, "beside it", form.SurfaceAfter(mould, floor, 0, 400, stick).At, 10, 1e-9)
	near.To(t, "over it", form.SurfaceAfter(mould, floor, 0, 800+80*5, stick).At, 25, 1e-9)
	near.To(t, "nothing poured", form.SurfaceAfter(mould, form.Level(12), 0, 0, nil).At, 12, 1e-9)
	near.To(t, "over the rim", form.SurfaceAfter(mould, floor, 0, 80*100, nil).At, 100, 1e-9)
	near.To(t, "beside one proud of the rim", form.SurfaceAfter(mould, floor, 0, 40*69, pressed(form.Rectangle{0, 0, 40, 90})).At, 69, 1e-9)
}

func TestDistances(t *testing.T) {
	moon := form.Circle{20, 45, 12}
	near.To(t, "left wall", form.WallDistance(mould, moon), 8, 1e-12)
	near.To(t, "right wall", form.WallDistance(mould, form.Circle{70, 45, 12}), -2, 1e-12)
	near.To(t, "floor", form.FloorDistance(moon), 33, 1e-12)
	near.To(t, "cover", form.Cover(moon, form.Level(65)), 8, 1e-12)
	near.To(t, "proud", form.Cover(moon, form.Level(50)), -7, 1e-12)
	near.To(t, "under a slope", form.Cover(form.Rectangle{10, 0, 30, 20}, form.Line{At: 40, Slope: -0.5}), 5, 1e-12)
	// Walls that lean by 3 in 4 stand at 4/5 of the level distance.
	near.To(t, "leaning wall", form.WallDistance(form.Leaning(20, 80, 40, 1, 1), form.Rectangle{40, 0, 45, 20}), 5*0.8, 1e-12)
	near.To(t, "round wall", form.WallDistance(form.Lying(80, 40, 1), form.Circle{40, 30, 10}), 20, 1e-12)
}

// Batter and embeds fill the section, no more and no less, whatever the mould
// and the slopes; no pour line is above its finished surface or below the layer
// before.
func TestFillLayersKeepsVolume(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSection(t)
		layers := drawLoaf(t, s)
		fills := form.FillLayers(s, layers)
		top := layers[len(layers)-1].Surface
		var area, volume float64
		for _, l := range layers {
			for _, e := range l.Embeds {
				area += e.Under(top).Area
				volume += s.Volume(e.Under(top))
			}
		}
		base, middle := 0.0, s.Width()/2
		for i, f := range fills {
			area += f.Area
			volume += f.Volume
			if y := f.PourLine.Height(middle); y < base-1e-6 || y > f.Surface.Height(middle)+1e-6 {
				t.Fatalf("layer %d: pour line %g is not between %g and %g", i, y, base, f.Surface.Height(middle))
			}
			base = f.Surface.Height(middle)
		}
		want := s.Outline().Under(top)
		near.Share(t, "section", area, want.Area, 1e-9)
		near.Share(t, "volume", volume, s.Volume(want), 1e-9)
	})
}

func drawSection(t *rapid.T) form.Section {
	switch rapid.IntRange(0, 3).Draw(t, "section") {
	case 0:
		return form.Straight(80, 70, 220)
	case 1:
		return form.Leaning(rapid.Float64Range(75, 90).Draw(t, "floor"), rapid.Float64Range(75, 90).Draw(t, "rim"), 70,
			rapid.Float64Range(180, 220).Draw(t, "floor length"), rapid.Float64Range(180, 240).Draw(t, "rim length"))
	case 2:
		return form.Lying(rapid.Float64Range(72, 160).Draw(t, "diameter"), 70, 300)
	default:
		return form.Upright(80, rapid.Float64Range(60, 100).Draw(t, "rim"), 70)
	}
}

// drawLoaf gives one to four layers in a section 70 mm high, each level or
// sloped, with one embed each, in columns of their own so that they lie apart; some stand up into later
// layers.
func drawLoaf(t *rapid.T, s form.Section) []form.Layer {
	surfaces := rapid.SliceOfNDistinct(rapid.IntRange(1, 6), 1, 4, rapid.ID[int]).Draw(t, "surfaces")
	slices.Sort(surfaces)
	middle, base := s.Width()/2, 0.0
	var layers []form.Layer
	for i, tens := range surfaces {
		y := 10 * float64(tens)
		slope := rapid.SampledFrom([]float64{0, 0, 0.02, -0.02}).Draw(t, "slope")
		radius := rapid.Float64Range(0.5, 3).Draw(t, "radius")
		x := middle + []float64{-4, 4, -12, 12}[i]
		up := rapid.Float64Range(base+radius+2, y-1).Draw(t, "up")
		l := form.Layer{Surface: form.Through(form.Point{middle, y}, slope)}
		embed := form.Outline(form.Circle{x, up, radius})
		switch rapid.IntRange(0, 2).Draw(t, "shape") {
		case 0:
			embed = form.Rectangle{x - radius, up - radius, x + radius, up + 2*radius}
		case 1:
			embed = form.NewPolygon([]form.Point{{x - radius, up}, {x + radius, up - radius}, {x, up + 9}})
		}
		if rapid.Bool().Draw(t, "stands") {
			l.Embeds = stood(embed)
		} else {
			l.Embeds = pressed(embed)
		}
		layers = append(layers, l)
		base = y
	}
	return layers
}

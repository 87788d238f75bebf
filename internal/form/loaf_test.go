package form_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"bench/internal/form"
)

var mould = form.Section{Width: 80, Height: 70}

// A loaf whose numbers can be worked out by hand: a square lighthouse 20 mm
// wide stands from 10 to 50 mm, held by the sea, whose surface is at 30 mm.
func TestLighthouseByHand(t *testing.T) {
	lighthouse := form.Rectangle{30, 10, 50, 50}
	got := form.FillLayers(mould, []form.Layer{
		{Surface: 30, Embeds: []form.Outline{lighthouse}},
		{Surface: 60},
	})
	sea, dusk := got[0], got[1]
	near(t, "sea", sea.Area, 80*30-20*20, 1e-9)
	near(t, "sea's pour line", sea.PourLine, 2000./80, 1e-9) // before the lighthouse is pressed in
	near(t, "dusk", dusk.Area, 80*30-20*20, 1e-9)
	near(t, "dusk's pour line", dusk.PourLine, 60, 1e-9) // the lighthouse stands there already
}

func TestEmbedPressedIntoTheTopRaisesIt(t *testing.T) {
	moon := form.Circle{40, 50, 10}
	got := form.FillLayers(mould, []form.Layer{{Surface: 30}, {Surface: 65, Embeds: []form.Outline{moon}}})
	near(t, "lower pour line", got[0].PourLine, 30, 1e-9)
	near(t, "upper pour line", got[1].PourLine, 65-moon.AreaBelow(100)/80, 1e-9)
}

func TestLayerOutOfOrderTakesNoBatter(t *testing.T) {
	got := form.FillLayers(mould, []form.Layer{{Surface: 30}, {Surface: 20}})
	near(t, "area", got[1].Area, 0, 0)
}

func TestSurfaceAfterRoundAStandingEmbed(t *testing.T) {
	stick := []form.Outline{form.Rectangle{0, 0, 40, 20}}
	near(t, "beside it", form.SurfaceAfter(mould, 0, 400, stick), 10, 1e-9)
	near(t, "over it", form.SurfaceAfter(mould, 0, 800+80*5, stick), 25, 1e-9)
	near(t, "nothing poured", form.SurfaceAfter(mould, 12, 0, nil), 12, 1e-9)
	near(t, "over the rim", form.SurfaceAfter(mould, 0, 80*100, nil), 100, 1e-9)
}

func TestDistances(t *testing.T) {
	moon := form.Circle{20, 45, 12}
	near(t, "left wall", form.WallDistance(mould, moon), 8, 1e-12)
	near(t, "right wall", form.WallDistance(mould, form.Circle{70, 45, 12}), -2, 1e-12)
	near(t, "floor", form.FloorDistance(moon), 33, 1e-12)
	near(t, "cover", form.Cover(moon, 65), 8, 1e-12)
	near(t, "proud", form.Cover(moon, 50), -7, 1e-12)
}

// Batter and embeds fill the section, no more and no less; no pour line is
// above its finished surface or below the layer before.
func TestFillLayersKeepsVolume(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		layers, embeds := drawLoaf(t)
		fills := form.FillLayers(mould, layers)
		top := layers[len(layers)-1].Surface
		var filled float64
		for _, e := range embeds {
			filled += e.AreaBelow(top)
		}
		base := 0.0
		for i, f := range fills {
			filled += f.Area
			if f.PourLine < base-1e-9 || f.PourLine > f.Surface+1e-9 {
				t.Fatalf("layer %d: pour line %g is not between %g and %g", i, f.PourLine, base, f.Surface)
			}
			base = f.Surface
		}
		nearShare(t, "section", filled, mould.Width*top, 1e-9)
	})
}

// drawLoaf gives one to four layers with one embed each, in columns of their
// own so that they lie apart; some stand up into later layers.
func drawLoaf(t *rapid.T) (layers []form.Layer, embeds []form.Outline) {
	surfaces := rapid.SliceOfNDistinct(rapid.Float64Range(5, 70), 1, 4, rapid.ID[float64]).Draw(t, "surfaces")
	slices.Sort(surfaces)
	base := 0.0
	for i, surface := range surfaces {
		x := 10 + 20*float64(i)
		radius := rapid.Float64Range(0.5, 9).Draw(t, "radius")
		y := base + radius + rapid.Float64Range(0, surface-base).Draw(t, "up")
		embed := form.Outline(form.Circle{x, y, radius})
		if rapid.Bool().Draw(t, "square") {
			embed = form.Rectangle{x - radius, y - radius, x + radius, y + radius}
		}
		layers = append(layers, form.Layer{Surface: surface, Embeds: []form.Outline{embed}})
		embeds = append(embeds, embed)
		base = surface
	}
	return layers, embeds
}

package face

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"bench/internal/form"
	"bench/internal/scene"
)

// sections are moulds of every kind that has a cut face.
func sectionOf(t *rapid.T) form.Section {
	w, h := rapid.Float64Range(50, 100).Draw(t, "width"), rapid.Float64Range(50, 80).Draw(t, "height")
	switch rapid.SampledFrom([]string{"straight", "leaning", "lying"}).Draw(t, "kind") {
	case "leaning":
		return form.Leaning(w*rapid.Float64Range(0.7, 1.2).Draw(t, "lean"), w, h, 200, 210)
	case "lying":
		return form.Lying(w, w*rapid.Float64Range(0.6, 1).Draw(t, "open"), 200)
	}
	return form.Straight(w, h, 200)
}

// The painted area of each layer is the area that form gives it as batter, for
// level and sloped surfaces in moulds of every kind, with an embed in between.
// Layers are painted in pure red and green and the embed in blue, so that light
// adds up to areas.
func TestPaintedAreasAreThoseOfTheNumbers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		section := sectionOf(t)
		middle := section.Width() / 2
		slope := rapid.Float64Range(-0.15, 0.15).Draw(t, "slope")
		low := form.Through(form.Point{X: middle, Y: rapid.Float64Range(0.35, 0.55).Draw(t, "low") * section.Height}, slope)
		high := form.Level(rapid.Float64Range(0.8, 0.98).Draw(t, "high") * section.Height)
		embed := form.Ellipse{CX: middle, CY: low.Height(middle), RX: 9, RY: 6}
		fills := form.FillLayers(section, []form.Layer{{Surface: low, Embeds: []form.Embed{{Outline: embed}}}, {Surface: high}})

		l := Loaf{Walls: pointsOf(section.Boundary()), Rim: section.Height, Layers: []Layer{
			{
				Colour: scene.Colour{R: 255}, Finished: Level(low), Poured: true, Settled: true,
				Embeds: []Embed{{Outline: pointsOf(embed.Boundary()), Colour: scene.Colour{B: 255}, In: true}},
			},
			{Colour: scene.Colour{G: 255}, Finished: Level(high), Poured: true, Settled: true},
		}}
		sum := painted(l.CutFace(Frame{}), 3)
		for i, want := range []float64{fills[0].Area, fills[1].Area, form.Area(embed)} {
			if math.Abs(sum[i]-want) > 0.002*want+0.3 {
				t.Fatalf("colour %d covers %.2f mm², not %.2f", i, sum[i], want)
			}
		}
	})
}

// painted adds up the light of each channel in mm². Lines are no soap.
func painted(s scene.Scene, perMM float64) scene.Linear {
	for i := range s.Shapes {
		s.Shapes[i].Line = scene.Line{}
	}
	w, h := int(math.Ceil(s.Box.Width()*perMM)), int(math.Ceil(s.Box.Height()*perMM))
	dot := s.Box.Width() / float64(w) * s.Box.Height() / float64(h)
	var sum scene.Linear
	for _, d := range scene.Paint(s, w, h).Dots {
		for i := range sum {
			sum[i] += d.Light[i] * dot
		}
	}
	return sum
}

// What is cut off the picture is not soap: the whole face is in sight.
func TestTheWholeFaceIsInSight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		section := sectionOf(t)
		slope := rapid.Float64Range(-0.2, 0.2).Draw(t, "slope")
		top := form.Through(form.Point{X: section.Width() / 2, Y: 0.8 * section.Height}, slope)
		l := Loaf{Walls: pointsOf(section.Boundary()), Rim: section.Height, Layers: []Layer{{Finished: Level(top), Poured: true, Settled: true, Colour: scene.Colour{R: 255}}}}
		want := section.Outline().Under(top).Area
		if got := painted(l.Bar(), 3)[0]; math.Abs(got-want) > 0.002*want+0.3 {
			t.Fatalf("%.2f mm² are in sight, not %.2f", got, want)
		}
	})
}

package fill_test

import (
	"math"
	"testing"

	"bench/internal/fill"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/sample"
	"bench/recipes"
)

// TestSharesAddUp: the layers of a batter use up its oils, no more and no less.
func TestSharesAddUp(t *testing.T) {
	for _, file := range recipes.Files() {
		c := sample.Control(t, file, 2)
		z := fill.Of(c)
		for i, b := range c.Recipe.Batters {
			sum := 0.0
			for _, at := range c.Recipe.LayersOf(b.Name) {
				sum += z.Shares[at]
			}
			if math.Abs(sum-1) > 1e-12 || z.Oils[i] <= 0 {
				t.Errorf("%s, %s: shares of %g in all, oils %s", file, b.Name, sum, z.Oils[i])
			}
		}
	}
}

// TestLevelsAsDrawn: a mould that gets what the design asks for shows the surfaces
// that the design draws.
func TestLevelsAsDrawn(t *testing.T) {
	for _, file := range recipes.Files() {
		c := sample.Control(t, file, 1)
		z := fill.Of(c)
		levels := z.Levels(asDrawn(c, z), nil)
		for i, l := range c.Recipe.Layers {
			if off := z.Middle(levels[i].Surface) - l.Surface; off < -quantity.Millimetre/100 || off > quantity.Millimetre/100 {
				t.Errorf("%s, %s: the surface lies at %s, drawn at %s", file, l.Name, z.Middle(levels[i].Surface), l.Surface)
			}
			left, right := z.Walls(levels[i].Surface)
			if flat := l.Propped == (recipe.Propping{}); flat != (left == right) {
				t.Errorf("%s, %s: %s at the left wall, %s at the right", file, l.Name, left, right)
			}
		}
	}
}

// TestDisplacedLifts: all that embeds displace, over the mould's floor, is what
// they lift the surface by: plain arithmetic in a mould with upright walls.
func TestDisplacedLifts(t *testing.T) {
	c := sample.Control(t, "lighthouse-at-dusk.yaml", 1)
	z := fill.Of(c)
	levels := z.Levels(asDrawn(c, z), nil)
	floor := c.Mould.Width.Millimetres() * c.Mould.Length.Millimetres()
	pressed := 0
	for i, l := range c.Recipe.Layers {
		volume, lift := 0.0, quantity.Length(0)
		for _, d := range z.Displaced(levels, i) {
			if d.Lift > 0 {
				pressed++
				volume, lift = volume+float64(d.Volume), lift+d.Lift
			}
		}
		if rise := z.Middle(levels[i].Surface) - z.Middle(levels[i].PourLine); math.Abs(float64(rise-lift)) > float64(quantity.Millimetre)/100 {
			t.Errorf("%s rises by %s, and its embeds lift it by %s", l.Name, rise, lift)
		}
		if math.Abs(lift.Millimetres()-volume/floor) > 0.01 {
			t.Errorf("%s: %g mm³ over %g mm² lift it by %s", l.Name, volume, floor, lift)
		}
	}
	if pressed == 0 {
		t.Error("no embed displaces anything")
	}
}

// asDrawn gives what the design puts into one mould, layer by layer.
func asDrawn(c recipe.Control, z fill.Size) []quantity.Mass {
	var masses []quantity.Mass
	for i, f := range c.Fills() {
		masses = append(masses, quantity.FromGrams(f.Volume/1000*z.Mixtures[i].GramsPerML))
	}
	return masses
}

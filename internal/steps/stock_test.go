package steps_test

import (
	"math"
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/sample"
	"bench/internal/steps"
)

// with changes a material of a control recipe.
func with(c recipe.Control, name string, change func(*recipe.Material)) recipe.Control {
	c.Materials = append([]recipe.Material(nil), c.Materials...)
	for i := range c.Materials {
		if c.Materials[i].Name == name {
			change(&c.Materials[i])
		}
	}
	return c
}

// A stock solution of 50 % brings the same alkali and the same water as dry
// alkali of full purity; it is weighed on top of the water that is left.
func TestStockBringsTheSame(t *testing.T) {
	dry := sample.Control(t, "lighthouse-at-dusk.yaml", 3)
	stock := with(dry, recipe.SodiumHydroxide, func(m *recipe.Material) { m.Stock, m.Made = 50*quantity.Percent, "2 March" })
	a, b := steps.Of(batch.State{Control: dry}), steps.Of(batch.State{Control: stock})
	for i := range a.Batters {
		x, y := a.Batters[i], b.Batters[i]
		alkali := x.Alkali[0].Mass.Grams() // By hand: half of the stock is alkali, and half is water.
		closeTo(t, "stock", y.Alkali[0].Mass.Grams(), 2*alkali, 0.15)
		closeTo(t, "extra water", y.Water.Mass.Grams(), x.Water.Mass.Grams()-alkali, 0.15)
		closeTo(t, "batter", y.Mass.Grams(), x.Mass.Grams(), 0.3)
		closeTo(t, "lye concentration", y.Concentration, x.Concentration, 0.0005)
		closeTo(t, "superfat", y.Superfat.Percent, x.Superfat.Percent, 0.06)
		// Diluting heats it less than dissolving, and still by tens of degrees.
		if rise := y.Peak.Celsius - 20; rise < 10 || y.Peak.Celsius > x.Peak.Celsius-20 {
			t.Errorf("%+v after %+v", y.Peak, x.Peak)
		}
	}
	work := begin(stock)
	work.workTo(t, "sea/sodium hydroxide")
	task := work.task(t, "sea/sodium hydroxide")
	if task.Vessel != "lye jug A" || task.SoFar != work.task(t, "sea/water").Mass+work.task(t, "sea/sodium lactate").Mass || !task.MustType || !strings.Contains(task.Hint, "made 2 March") {
		t.Errorf("%+v", task)
	}
	if err := work.work(never); err != nil {
		t.Error(err)
	}
}

// An additive that is 60 % water: so much less water is weighed, and the superfat
// stays.
func TestWateryAdditiveCountsAsWater(t *testing.T) {
	c := sample.Control(t, "lighthouse-at-dusk.yaml", 3)
	before := steps.Of(batch.State{Control: c}).Batters[0]
	milk := with(c, "sodium lactate", func(m *recipe.Material) { m.Water = 60 * quantity.Percent })
	after := steps.Of(batch.State{Control: milk}).Batters[0]
	brought := before.Additives[0].Mass.Grams() * 0.6
	if less := (before.Water.Mass - after.Water.Mass).Grams(); math.Abs(less-brought) > 1 {
		t.Errorf("%.2f g less water for %.2f g brought", less, brought)
	}
	closeTo(t, "superfat", after.Superfat.Percent, before.Superfat.Percent, 0.02)
}

// A cream that is a fifth coconut oil: that oil takes its alkali. At a
// saponification value of 256.5 mg/g (the middle of Codex CXS 210, read in a
// transcription) the sodium hydroxide for it is 0.2 × 256.5/1000 × 39.997/56.105
// of the cream's weight, less the superfat.
func TestOilInAnAdditiveTakesAlkali(t *testing.T) {
	c := sample.Control(t, "lighthouse-at-dusk.yaml", 3)
	before := steps.Of(batch.State{Control: c}).Batters[0]
	cream := with(c, "sodium lactate", func(m *recipe.Material) { m.Oil, m.OilShare = "coconut", 20*quantity.Percent })
	after := steps.Of(batch.State{Control: cream}).Batters[0]
	oils := 0.0
	for i := range before.Oils {
		oils += after.Oils[i].Mass.Grams() / before.Oils[i].Mass.Grams() / float64(len(before.Oils))
	}
	more := after.Alkali[0].Mass.Grams() - oils*before.Alkali[0].Mass.Grams()
	want := after.Additives[0].Mass.Grams() * 0.2 * 0.2565 * 39.997 / 56.105 * 0.95
	closeTo(t, "more alkali", more, want, 0.06)
	closeTo(t, "superfat", after.Superfat.Percent, 5, 0.02)
}

package calc_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"bench/internal/calc"
	"bench/internal/near"
)

const planned = 0.05 // superfat of the batters below

// batter is a batter of three oils, drawn, with its sodium hydroxide as planned.
func batter(t *rapid.T) (oils []calc.OilAmount, grams float64) {
	for _, name := range []string{"olive", "coconut", "castor"} {
		oils = append(oils, calc.OilAmount{
			Name:  name,
			Grams: calc.Exactly(rapid.Float64Range(20, 2000).Draw(t, name)),
			SV:    calc.Exactly(rapid.Float64Range(150, 265).Draw(t, name+" SV")),
		})
	}
	return oils, calc.AlkaliNeeded(calc.AlkaliAsKOH(oils), 0, planned, 1, calc.MolarMassNaOH, 1)
}

func caustic(grams float64) []calc.AlkaliAmount {
	return []calc.AlkaliAmount{{"sodium hydroxide", calc.Exactly(grams), calc.Exactly(1), calc.MolarMassNaOH}}
}

func TestInProportion(t *testing.T) {
	for _, c := range []struct {
		name      string
		weighings []calc.Weighing
		factor    float64
		add       []float64
	}{
		{"one over by a tenth", []calc.Weighing{{500, 550, true}, {300, 300, true}, {200, 0, false}}, 1.1, []float64{0, 30, 220}},
		{"two over: the further one leads", []calc.Weighing{{500, 550, true}, {300, 360, true}}, 1.2, []float64{50, 0}},
		{"under, the others in", []calc.Weighing{{500, 450, true}, {300, 300, true}}, 1, []float64{50, 0}},
		{"under, the others follow down", []calc.Weighing{{500, 450, true}, {300, 0, false}}, 0.9, []float64{0, 270}},
		{"none in", []calc.Weighing{{500, 0, false}}, 1, []float64{500}},
		{"not planned at all", []calc.Weighing{{0, 5, true}, {300, 300, true}}, 1, []float64{0, 0}},
	} {
		factor, add := calc.InProportion(c.weighings)
		near.To(t, c.name, factor, c.factor, 1e-12)
		for i := range c.add {
			near.To(t, c.name+", grams to add", add[i], c.add[i], 1e-9)
		}
	}
}

// Oils and alkali brought up together restore every share and the superfat.
func TestInProportionKeepsTheSuperfat(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		oils, grams := batter(t)
		weighings := []calc.Weighing{{Target: grams, Actual: grams, In: rapid.Bool().Draw(t, "alkali in")}}
		for _, o := range oils {
			off := rapid.Float64Range(0.8, 1.3).Draw(t, "off")
			weighings = append(weighings, calc.Weighing{Target: o.Grams.Nominal, Actual: off * o.Grams.Nominal, In: true})
		}
		factor, add := calc.InProportion(weighings)
		final := func(i int) float64 {
			if !weighings[i].In {
				return add[i]
			}
			return weighings[i].Actual + add[i]
		}
		for i := range weighings {
			if add[i] < 0 {
				t.Fatalf("%g g to add: nothing comes out again", add[i])
			}
			near.Share(t, "share", final(i), factor*weighings[i].Target, 1e-9)
			if i > 0 {
				oils[i-1].Grams = calc.Exactly(final(i))
			}
		}
		band, _ := calc.SuperfatBand(oils, caustic(final(0)), 0)
		near.To(t, "superfat", band.Percent, 100*planned, 1e-6)
	})
}

// Pouring part of a solution that holds too much gives the superfat asked for,
// whatever steam has left it, and nothing is lost.
func TestPouringPartGivesTheSuperfat(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		oils, wanted := batter(t)
		alkali := wanted * rapid.Float64Range(1, 2).Draw(t, "too much")
		solution := alkali * rapid.Float64Range(2, 4).Draw(t, "per alkali")
		water := rapid.Float64Range(0, 3).Draw(t, "water") * wanted
		got, err := calc.PourPart(solution, alkali, wanted, water)
		if err != nil {
			t.Fatal(err)
		}
		near.To(t, "pour and keep", got.Pour+got.Keep, solution, 1e-9*solution)
		band, _ := calc.SuperfatBand(oils, caustic(got.Pour*got.Strength), 0)
		near.To(t, "superfat", band.Percent, 100*planned, 1e-6)
		if got.Keep < 0 || got.WaterToAdd < 0 || got.WaterToAdd > 0 && got.WaterToAdd+got.Pour*(1-got.Strength) > water*(1+1e-9) {
			t.Fatalf("%+v", got)
		}
	})
}

func TestPourPart(t *testing.T) {
	// By hand: 150 g in 430 g, and 140 g wanted with 280 g of water.
	got, err := calc.PourPart(430, 150, 140, 280)
	if err != nil {
		t.Fatal(err)
	}
	near.To(t, "pour", got.Pour, 401.333, 0.001)
	near.To(t, "keep", got.Keep, 28.667, 0.001)
	near.To(t, "strength", got.Strength, 150./430, 1e-12)
	near.To(t, "water to add", got.WaterToAdd, 280-261.333, 0.001)

	for _, c := range []struct {
		solution, alkali, wanted, water float64
		says                            string
	}{
		{430, 130, 140, 280, "dissolve the rest"},
		{100, 150, 140, 280, "weigh it again"},
		{430, math.NaN(), 140, 280, "not possible"},
		{-430, 150, 140, 280, "not possible"},
	} {
		if _, err := calc.PourPart(c.solution, c.alkali, c.wanted, c.water); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%+v: got error %v, want one that says %q", c, err, c.says)
		}
	}
}

func TestDissolveShortfall(t *testing.T) {
	alkali, water, err := calc.DissolveShortfall(130, 140, 20)
	if err != nil {
		t.Fatal(err)
	}
	near.To(t, "alkali", alkali, 10, 1e-9)
	near.To(t, "least water", water, 10/1.09, 0.02) // 109 g in 100 g of water (ICSC, second-hand)
	if none, _, err := calc.DissolveShortfall(140, 130, 0); err != nil || none != 0 {
		t.Errorf("nothing is short: got %g g, %v", none, err)
	}
	for _, c := range []struct {
		have, held float64
		says       string
	}{{130, 5, "at least 9.2 g"}, {math.Inf(1), 5, "not possible"}} {
		if _, _, err := calc.DissolveShortfall(c.have, 140, c.held); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%+v: got error %v, want one that says %q", c, err, c.says)
		}
	}
}

func TestRestoringOilGivesTheSuperfat(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		oils, grams := batter(t)
		alkalis := caustic(grams * rapid.Float64Range(0.9, 1.5).Draw(t, "too much"))
		acids := rapid.Float64Range(0, 5).Draw(t, "acids")
		before, _ := calc.SuperfatBand(oils, alkalis, acids)
		wanted := rapid.Float64Range(0, 0.2).Draw(t, "wanted")
		add := oils[rapid.IntRange(0, 2).Draw(t, "oil")]

		x, err := calc.RestoringOil(oils, alkalis, acids, add, wanted)
		if err != nil {
			t.Fatal(err)
		}
		add.Grams = calc.Exactly(x)
		after, _ := calc.SuperfatBand(append(slices.Clone(oils), add), alkalis, acids)
		if before.Percent >= 100*wanted {
			if x != 0 {
				t.Fatalf("%g g at a superfat of %g %%, when %g are wanted", x, before.Percent, 100*wanted)
			}
			near.To(t, "superfat", after.Percent, before.Percent, 1e-9)
			return
		}
		near.To(t, "superfat", after.Percent, 100*wanted, 1e-6)
		if len(oils) != 3 {
			t.Fatal("the oils given were changed")
		}
	})
}

func TestRestoringOilRefuses(t *testing.T) {
	oils := []calc.OilAmount{oil(100, 190)}
	for _, c := range []struct {
		sv, superfat float64
		says         string
	}{{190, 1, "less than 100 %"}, {190, math.NaN(), "less than 100 %"}, {0, 0.05, "takes no alkali"}} {
		if _, err := calc.RestoringOil(oils, caustic(20), 0, oil(0, c.sv), c.superfat); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%+v: got error %v, want one that says %q", c, err, c.says)
		}
	}
}

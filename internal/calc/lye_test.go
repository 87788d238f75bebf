package calc_test

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"bench/internal/calc"
	"bench/internal/near"
)

func TestLyeConcentrationOfExercises(t *testing.T) {
	// School exercises on mass fractions: 40 g in 460 g, 80 g in 600 g.
	near.To(t, "40 g in 460 g", calc.LyeConcentration(460, 40), 0.08, 1e-12)
	near.To(t, "80 g in 600 g", calc.LyeConcentration(600, 80), 0.1176, 0.00006)
	near.To(t, "nothing", calc.LyeConcentration(0, 0), 0, 0)
}

// The three ways of stating water are names for one quantity: 33.3 % is 2:1.
func TestWaterRules(t *testing.T) {
	for _, c := range []struct {
		name string
		rule calc.WaterRule
		want float64
	}{
		{"one third", calc.WaterRule{Kind: calc.ByLyeConcentration, Value: 1. / 3}, 280},
		{"2:1", calc.WaterRule{Kind: calc.ByWaterPerAlkali, Value: 2}, 280},
		{"28 % of oils", calc.WaterRule{Kind: calc.ByWaterOfOils, Value: 0.28}, 280},
		{"as strong as dissolves", calc.WaterRule{Kind: calc.ByLyeConcentration, Value: 0.522}, 128.199},
	} {
		got, err := c.rule.Water(140, 1000)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
		}
		near.To(t, c.name, got, c.want, 0.001)
	}
}

// 109 g of sodium hydroxide dissolve in 100 g of water at 20 °C (ICSC,
// second-hand): 52.2 % by mass.
func TestTooLittleWaterIsAnError(t *testing.T) {
	near.To(t, "limit", calc.MaxLyeConcentration, 109./209, 0.0006)
	for _, c := range []struct {
		rule calc.WaterRule
		says string
	}{
		{calc.WaterRule{Kind: calc.ByLyeConcentration, Value: 0.53}, "52.2 %"},
		{calc.WaterRule{Kind: calc.ByLyeConcentration, Value: 1}, "52.2 %"},
		{calc.WaterRule{Kind: calc.ByLyeConcentration, Value: 33}, "3300 %"},
		{calc.WaterRule{Kind: calc.ByWaterPerAlkali, Value: 0.9}, "at least 128.2 g"},
		{calc.WaterRule{Kind: calc.ByWaterOfOils, Value: 0.1}, "52.2 %"},
		{calc.WaterRule{Kind: calc.ByWaterPerAlkali, Value: 0}, "above zero"},
		{calc.WaterRule{Kind: calc.ByWaterOfOils, Value: -0.3}, "above zero"},
		{calc.WaterRule{Kind: 9, Value: 2}, "unknown"},
	} {
		if _, err := c.rule.Water(140, 1000); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%+v: got error %v, want one that says %q", c.rule, err, c.says)
		}
	}
}

func TestWaterComesBackAsItsConcentration(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		strength := rapid.Float64Range(0.1, 0.52).Draw(t, "strength")
		alkali := rapid.Float64Range(0.1, 5000).Draw(t, "alkali")
		water, err := calc.WaterRule{Kind: calc.ByLyeConcentration, Value: strength}.Water(alkali, 1)
		if err != nil {
			t.Fatal(err)
		}
		near.Share(t, "strength", calc.LyeConcentration(water, alkali), strength, 1e-12)
	})
}

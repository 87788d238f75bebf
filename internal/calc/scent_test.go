package calc_test

import (
	"testing"

	"pgregory.net/rapid"

	"bench/internal/calc"
	"bench/internal/near"
)

// Common practice, no source: 3 % of the oils is 2.05 % of a usual fresh bar,
// and 2.33 % once 12 % of the bar has dried away.
func TestScentOfAUsualBar(t *testing.T) {
	oils := []calc.OilAmount{oil(450, 190), oil(300, 256.5), oil(250, 199.5)}
	alkali := calc.AlkaliNeeded(calc.AlkaliAsKOH(oils), 0, 0.05, 1, calc.MolarMassNaOH, 1)
	water, err := calc.WaterRule{Kind: calc.ByLyeConcentration, Value: 0.33}.Water(alkali, 1000)
	if err != nil {
		t.Fatal(err)
	}
	batter := 1000 + alkali + water + 30
	near.To(t, "fresh", calc.ScentShare(30, batter), 0.0205, 0.0002)
	near.To(t, "cured", calc.ScentShareCured(30, batter, 0.12), 0.0233, 0.0002)
	near.To(t, "all gone", calc.ScentShareCured(30, batter, 1), 0, 0)
}

func TestMostScentStaysAtTheLimit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		batter := rapid.Float64Range(10, 20_000).Draw(t, "batter")
		limit := rapid.Float64Range(0.0001, 0.2).Draw(t, "limit")
		loss := rapid.Float64Range(0, 0.3).Draw(t, "loss")
		most := calc.MostScent(batter, limit, loss)
		near.Share(t, "share", calc.ScentShareCured(most, batter+most, loss), limit, 1e-9)
	})
}

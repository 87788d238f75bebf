package oils_test

import (
	"testing"

	"bench/internal/calc"
	"bench/internal/solution"
)

// Common practice, no source: a mould takes 0.40 oz of oils per cubic inch.
// Batter of olive, coconut and palm at 33 % lye concentration and 3 % scent
// comes within 5 % of it at pouring temperatures.
func TestOilsPerCubicInch(t *testing.T) {
	const ounce, cubicInch = 28.349523125, 16.387064
	shares := map[string]float64{"olive": 450, "coconut": 300, "palm": 250}
	for _, tC := range []float64{25, 30, 35} {
		var parts []calc.Part
		var amounts []calc.OilAmount
		for key, grams := range shares {
			o := find(t, key)
			parts = append(parts, calc.Part{Grams: grams, GramsPerML: o.DensityGPerML(tC)})
			amounts = append(amounts, calc.OilAmount{
				Name: key, Grams: calc.Exactly(grams), SV: calc.Published(o.SV.Low, o.SV.High),
			})
		}
		alkali := calc.AlkaliNeeded(calc.AlkaliAsKOH(amounts), 0, 0.05, 1, calc.MolarMassNaOH, 1)
		water, err := calc.WaterRule{Kind: calc.ByLyeConcentration, Value: 0.33}.Water(alkali, 1000)
		if err != nil {
			t.Fatal(err)
		}
		const scent = 30
		parts = append(
			parts,
			calc.Part{Grams: alkali + water, GramsPerML: solution.SodiumHydroxideDensity(0.33, tC)},
			calc.Part{Grams: scent, GramsPerML: 1},
		)
		ml := (1000 + alkali + water + scent) / calc.DensityByVolume(parts...)
		perCubicInch := 1000 / ounce / (ml / cubicInch)
		if perCubicInch < 0.40*0.95 || perCubicInch > 0.40*1.05 {
			t.Errorf("at %g °C: %.4f oz of oils per cubic inch, want 0.40 within 5 %%", tC, perCubicInch)
		}
		t.Logf("at %g °C: %.4f oz of oils per cubic inch", tC, perCubicInch)
	}
}

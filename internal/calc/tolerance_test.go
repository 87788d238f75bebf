package calc_test

import (
	"testing"

	"bench/internal/calc"
	"bench/internal/near"
)

// All ingredients off by their tolerance, all in the bad direction: the
// superfat must have moved by a quarter point, to first order.
func TestTolerancesTogetherAreAQuarterPoint(t *testing.T) {
	const superfat, purity = 0.05, 0.98
	oils := []calc.OilAmount{oil(450, 190), oil(300, 256.5), oil(250, 199.5)}
	n := calc.AlkaliAsKOH(oils)
	grams := calc.AlkaliNeeded(n, 0, superfat, 1, calc.MolarMassNaOH, purity)
	ingredients := len(oils) + 1

	for i, o := range oils {
		less := o.Grams.Nominal - calc.OilTolerance(n, superfat, o.SV.Nominal, ingredients)
		oils[i].Grams = calc.Exactly(less)
	}
	grams += calc.AlkaliTolerance(n, calc.MolarMassNaOH, purity, ingredients)
	off, _ := calc.SuperfatBand(oils, []calc.AlkaliAmount{
		{"sodium hydroxide", calc.Exactly(grams), calc.Exactly(purity), calc.MolarMassNaOH},
	}, 0)
	near.To(t, "superfat in percent", off.Percent, 5-0.25, 0.002)
}

func TestToleranceOfOneOil(t *testing.T) {
	// By hand: 0.25 % of 200 g KOH over 4 is 0.125 g KOH, and one gram of an
	// oil of 200 mg/g at 5 % superfat moves the need by 0.19 g.
	near.To(t, "oil", calc.OilTolerance(200, 0.05, 200, 4), 0.125/0.19, 1e-9)
	near.To(t, "alkali", calc.AlkaliTolerance(200, calc.MolarMassKOH, 1, 4), 0.125, 1e-9)
	near.To(t, "impure alkali", calc.AlkaliTolerance(200, calc.MolarMassKOH, 0.8, 4), 0.125/0.8, 1e-9)
	near.To(t, "alone", calc.AlkaliTolerance(200, calc.MolarMassKOH, 1, 0), 0.5, 1e-9)
	near.To(t, "water", calc.WaterTolerance(250), 5, 1e-9)
}

// TestToleranceOfAPellet: 0.2 g where that moves the superfat by less than a quarter point,
// and else what does: of 240 g of sodium hydroxide at 5 % superfat that is 240/0.95·0.0025 =
// 0.63 g, of 60 g 0.158 g. A pellet weighs 0.1 to 0.3 g (common practice, no source).
func TestToleranceOfAPellet(t *testing.T) {
	koh := func(naoh float64) float64 { return naoh / 0.95 * calc.MolarMassKOH / calc.MolarMassNaOH }
	near.To(t, "240 g", calc.PelletTolerance(koh(240), calc.MolarMassNaOH, 1), 0.2, 1e-9)
	near.To(t, "60 g", calc.PelletTolerance(koh(60), calc.MolarMassNaOH, 1), 60/0.95*0.0025, 1e-9)
}

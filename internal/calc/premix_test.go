package calc_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"bench/internal/calc"
	"bench/internal/near"
)

// Ph. Eur., assays by titration (from memory): 1 mL of 1 M sodium hydroxide, or 56.1 mg
// of potassium hydroxide, is 64.03 mg of citric acid: 876 mg/g, as docs/format.md has
// it. By hand, with its molar mass of 192.124 g/mol, a gram takes 0.6246 g of sodium
// hydroxide.
func TestAcidsUseUpAlkali(t *testing.T) {
	near.To(t, "mg KOH/g", 1000*calc.MolarMassKOH/64.03, 876, 0.5)
	near.To(t, "NaOH", calc.AlkaliNeeded(0, 0.876, 0, 1, calc.MolarMassNaOH, 1), 3*calc.MolarMassNaOH/192.124, 0.0003)
}

func TestPremeltedOilsBringWhatTheyCan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 6).Draw(t, "oils")
		grams, shares := make([]float64, n), make([]float64, n)
		var sum float64
		for i := range n {
			grams[i] = rapid.Float64Range(0, 1000).Draw(t, "grams")
			shares[i] = rapid.Float64Range(0.01, 1).Draw(t, "share")
			sum += shares[i]
		}
		for i := range shares {
			shares[i] /= sum
		}
		premelted, extra, err := calc.FromPremelted(grams, shares)
		if err != nil {
			t.Fatal(err)
		}
		least := math.Inf(1)
		for i := range grams {
			near.To(t, "grams", premelted*shares[i]+extra[i], grams[i], 1e-9)
			least = min(least, extra[i])
		}
		if least > 1e-9 {
			t.Fatalf("%g g of premelted oils leave at least %g g of each: more would do", premelted, least)
		}
	})
}

func TestPremeltedRefuses(t *testing.T) {
	for _, c := range []struct {
		grams, shares []float64
		says          string
	}{
		{[]float64{100}, []float64{0.6, 0.4}, "1 oils and 2 shares"},
		{[]float64{100, 50}, []float64{0.6, 0.399}, "99.9 %"},
		{[]float64{100, 50}, []float64{1.2, -0.2}, "-20 %"},
		{[]float64{100, math.NaN()}, []float64{0.6, 0.4}, "not possible"},
		{nil, nil, "0 %"},
	} {
		if _, _, err := calc.FromPremelted(c.grams, c.shares); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%v of %v: got error %v, want one that says %q", c.shares, c.grams, err, c.says)
		}
	}
}

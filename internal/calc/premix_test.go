package calc_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"bench/internal/calc"
	"bench/internal/near"
)

// Molar masses: Ph. Eur., monographs on citric acid (192.1, monohydrate 210.1)
// and lactic acid (90.1), from memory.
func TestAcidsUseUpAlkali(t *testing.T) {
	near.To(t, "citric acid g/mol", calc.MolarMassCitric, 192.1, 0.05)
	near.To(t, "monohydrate g/mol", calc.MolarMassCitricMonohydrate, 210.1, 0.05)
	near.To(t, "lactic acid g/mol", calc.MolarMassLactic, 90.1, 0.05)

	citric := calc.AcidValue(calc.MolarMassCitric, calc.ProtonsCitric, 1)
	near.To(t, "citric mg KOH/g", citric, 876, 0.2)
	near.To(t, "monohydrate mg KOH/g", calc.AcidValue(calc.MolarMassCitricMonohydrate, calc.ProtonsCitric, 1), 801, 0.2)
	near.To(t, "lactic 88 % mg KOH/g", calc.AcidValue(calc.MolarMassLactic, calc.ProtonsLactic, 0.88), 548.1, 0.1)

	// Ph. Eur., assays by titration (from memory): 1 mL of 1 M sodium hydroxide
	// is 64.03 mg of citric acid, or 90.1 mg of lactic acid.
	near.To(t, "mg of citric acid", 1000*calc.MolarMassKOH/citric, 64.03, 0.02)
	lactic := calc.AcidValue(calc.MolarMassLactic, calc.ProtonsLactic, 1)
	near.To(t, "mg of lactic acid", 1000*calc.MolarMassKOH/lactic, 90.1, 0.03)

	// A gram of citric acid takes 0.6246 g of sodium hydroxide, by hand.
	near.To(t, "NaOH", calc.AlkaliNeeded(0, citric/1000, 0, 1, calc.MolarMassNaOH, 1), 3*calc.MolarMassNaOH/192.124, 0.0002)
}

func TestCarriers(t *testing.T) {
	// Invented: milk of 87 % water and 4 % fat, mica wetted in twice its oil.
	milk := calc.Carrier{Grams: 100, WaterShare: 0.87, OilShare: 0.04}
	water, fat, rest := milk.Split()
	near.To(t, "water", water, 87, 1e-9)
	near.To(t, "fat", fat, 4, 1e-9)
	near.To(t, "rest", rest, 9, 1e-9)
	_, wetting, mica := calc.Carrier{Grams: 6, OilShare: 2. / 3}.Split()
	near.To(t, "wetting oil", wetting, 4, 1e-9)
	near.To(t, "mica", mica, 2, 1e-9)

	left, err := calc.WaterLeft(280, milk)
	if err != nil {
		t.Fatal(err)
	}
	near.To(t, "water left", left, 193, 1e-9)
	if left, err := calc.WaterLeft(87, milk); err != nil || left > 1e-9 {
		t.Errorf("just enough: %g g, %v", left, err)
	}
	if _, err := calc.WaterLeft(80, milk); err == nil || !strings.Contains(err.Error(), "bring 87.0 g") {
		t.Errorf("too much milk: got error %v", err)
	}
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

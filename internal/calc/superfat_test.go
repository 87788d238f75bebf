package calc_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"bench/internal/calc"
	"bench/internal/near"
)

// Historic recipes, amounts as printed; strengths and needs were worked out
// outside the project. Three of them hold more alkali than the fat can take.
func TestHistoricRecipes(t *testing.T) {
	const sa = "Simmons & Appleton, The Handbook of Soap Manufacture (1908): "
	equivalent := func(grams, e float64) calc.OilAmount { return oil(grams, 56100/e) }
	for _, c := range []struct {
		source            string
		oils              []calc.OilAmount
		solution          float64
		strength          float64
		percent, margin   float64
		moreThanFatCanUse bool
	}{
		{
			sa + "coconut oil and half its weight of lye at 71.4 °Tw",
			[]calc.OilAmount{equivalent(100, 215)},
			50, 0.3264, 12.3, 0.1, false,
		},
		{
			sa + "coconut and tallow at 72 °Tw",
			[]calc.OilAmount{equivalent(56, 215), equivalent(56, 284.8)},
			56, 0.3293, -0.8, 0.2, true,
		},
		{
			sa + "coconut, tallow and castor at 72 °Tw",
			[]calc.OilAmount{equivalent(56, 215), equivalent(56, 284.8), oil(56, 180)},
			83, 0.3293, -7.3, 0.3, true,
		},
		{
			"DOST/ITDI (Philippines) coconut soap procedure, 5 L and 2.3 L at 35 °Bé",
			[]calc.OilAmount{oil(5000*0.92, 257)},
			2300 * 1.320, 0.2916, -5, 0.2, true,
		},
	} {
		alkali := calc.AlkaliAmount{
			Name:  "sodium hydroxide",
			Grams: calc.Exactly(c.solution * c.strength), Purity: calc.Exactly(1), MolarMass: calc.MolarMassNaOH,
		}
		got, _ := calc.SuperfatBand(c.oils, []calc.AlkaliAmount{alkali}, 0)
		near.To(t, c.source, got.Percent, c.percent, c.margin)
		if (got.High < 0) != c.moreThanFatCanUse {
			t.Errorf("%s: band %.2f to %.2f %%, alkali in excess should be %t", c.source, got.Low, got.High, c.moreThanFatCanUse)
		}
	}
}

// mixed is a usual batter: ranges of Codex CXS 210 and (olive, from memory)
// CXS 33, weighed at 1 g, with the alkali for the superfat at 0.1 g.
// Acids use up as much as acids grams of potassium hydroxide.
func mixed(superfat, acids float64, purity calc.Interval) ([]calc.OilAmount, []calc.AlkaliAmount) {
	oils := []calc.OilAmount{
		{"olive", calc.Weighed(450, 1, 0), calc.Published(184, 196)},
		{"coconut", calc.Weighed(300, 1, 0), calc.Published(248, 265)},
		{"palm", calc.Weighed(250, 1, 0), calc.Published(190, 209)},
	}
	grams := calc.AlkaliNeeded(calc.AlkaliAsKOH(oils), acids, superfat, 1, calc.MolarMassNaOH, purity.Nominal)
	return oils, []calc.AlkaliAmount{{"sodium hydroxide", calc.Weighed(grams, 0.1, 0), purity, calc.MolarMassNaOH}}
}

// The method of JCGM 101:2008 (GUM supplement 1): draw every input from its
// rectangle, and look at what the superfat does. Without the clip the band's
// half-width is twice the standard deviation.
func TestBandAgreesWithMonteCarlo(t *testing.T) {
	const acids = 40
	oils, alkalis := mixed(0.05, acids, calc.StatedPurity(0.985))
	band, _ := calc.SuperfatBand(oils, alkalis, acids)
	draws := monteCarlo(oils, alkalis, acids)

	mean, deviation := moments(draws)
	near.To(t, "centre in percent", (band.Low+band.High)/2, mean, 0.02)
	near.Share(t, "standard uncertainty", (band.High-band.Low)/4, deviation, 0.01)
	if c := covered(draws, band); c < 0.95 || c > 0.99 {
		t.Errorf("the band covers %.1f %% of the draws, want 95 to 99 %%", 100*c)
	}
	if draws[0] < band.WorstLow || draws[len(draws)-1] > band.WorstHigh {
		t.Errorf("draws from %.2f to %.2f %% pass the worst case %+v", draws[0], draws[len(draws)-1], band)
	}
}

// A purity that is not stated can only leave less alkali than thought: it
// must not move the lower end, must lift the upper one, and the band still
// covers what happens when every purity from 95 to 100 % is equally likely.
func TestUnstatedPurityOnlyRaisesTheBand(t *testing.T) {
	oils, alkalis := mixed(0.05, 0, calc.UnstatedPurity())
	band, parts := calc.SuperfatBand(oils, alkalis, 0)
	_, pure := mixed(0.05, 0, calc.Exactly(1))
	known, _ := calc.SuperfatBand(oils, pure, 0)

	near.To(t, "nominal", band.Percent, 5, 1e-9)
	near.To(t, "lower end", band.Low, known.Low, 1e-9)
	if band.High < known.High+1 {
		t.Errorf("upper end %.2f %% does not show the doubt about the purity (%.2f %% without)", band.High, known.High)
	}
	draws := monteCarlo(oils, alkalis, 0)
	if c := covered(draws, band); c < 0.95 {
		t.Errorf("the band covers %.1f %% of the draws, want at least 95 %%", 100*c)
	}
	if !slices.ContainsFunc(parts, func(c calc.Contribution) bool { return c.Input == calc.InputPurity }) {
		t.Errorf("the purity is missing among %v", parts)
	}
}

// A nominal value at the end where all looks well must not hide the other end.
func TestNominalAtAnEndDoesNotHideTheOther(t *testing.T) {
	oils, alkalis := mixed(0.05, 0, calc.Exactly(1))
	for i, o := range oils {
		oils[i].SV.Nominal = o.SV.High
	}
	band, _ := calc.SuperfatBand(oils, alkalis, 0)
	draws := monteCarlo(oils, alkalis, 0)
	if c := covered(draws, band); c < 0.95 {
		t.Errorf("band %+v covers %.1f %% of the draws, want at least 95 %%", band, 100*c)
	}
}

// For one rectangular input, 2u = 2a/√3 is wider than a: the band is clipped.
func TestOneDominantOilIsClippedToTheWorstCase(t *testing.T) {
	oils := []calc.OilAmount{{"shea", calc.Exactly(100), calc.Published(160, 195)}}
	alkalis := []calc.AlkaliAmount{{"potassium hydroxide", calc.Exactly(16), calc.Exactly(1), calc.MolarMassKOH}}
	band, parts := calc.SuperfatBand(oils, alkalis, 0)
	near.To(t, "lower end", band.Low, 0, 1e-9) // 16 g is all that the low end takes
	near.To(t, "worst low", band.WorstLow, 0, 1e-9)
	near.To(t, "upper end", band.High, 100*(1-16/19.5), 1e-9)
	if len(parts) != 1 || parts[0].Input != calc.InputSV || parts[0].Share != 1 {
		t.Errorf("contributions %v, want the saponification value alone", parts)
	}
}

func TestLowestSuperfatPutsTheBandOnZero(t *testing.T) {
	oils, alkalis := mixed(0.05, 0, calc.StatedPurity(0.985))
	alkalis[0].Grams = calc.Weighed(2*alkalis[0].Grams.Nominal, 5, 0) // a coarse scale, and twice too much
	lowest := calc.LowestSuperfat(oils, alkalis, 3)
	if lowest < 2 || lowest > 6 {
		t.Fatalf("lowest superfat %.2f %% is not within 2 to 6 %%", lowest)
	}
	grams := calc.AlkaliNeeded(calc.AlkaliAsKOH(oils), 3, lowest/100, 1, calc.MolarMassNaOH, 0.985)
	at := []calc.AlkaliAmount{{"sodium hydroxide", calc.Weighed(grams, 5, 0), calc.StatedPurity(0.985), calc.MolarMassNaOH}}
	band, _ := calc.SuperfatBand(oils, at, 3)
	near.To(t, "nominal", band.Percent, lowest, 1e-6)
	near.To(t, "lower end", band.Low, 0, 1e-6)

	for i, o := range oils {
		oils[i].SV = calc.Certificate(o.SV.Nominal)
	}
	if certified := calc.LowestSuperfat(oils, alkalis, 3); certified >= lowest-0.5 {
		t.Errorf("certificates bring the lowest superfat only from %.2f to %.2f %%", lowest, certified)
	}
	if exact := calc.LowestSuperfat([]calc.OilAmount{oil(100, 200)}, at[:0], 0); exact != 0 {
		t.Errorf("without alkali the lowest superfat is %g, want 0", exact)
	}
}

func TestNoOilsNoSuperfat(t *testing.T) {
	if band, parts := calc.SuperfatBand(nil, nil, 1); band != (calc.Superfat{}) || parts != nil {
		t.Errorf("got %+v and %v, want nothing", band, parts)
	}
}

func TestBandIsOrdered(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		around := func(label string, least, most float64) calc.Interval {
			v := rapid.Float64Range(least, most).Draw(t, label)
			down := rapid.Float64Range(0, v/5).Draw(t, label+" down")
			up := rapid.Float64Range(0, v/5).Draw(t, label+" up")
			return calc.Interval{Low: v - down, Nominal: v, High: v + up}
		}
		var oils []calc.OilAmount
		for range rapid.IntRange(1, 5).Draw(t, "oils") {
			oils = append(oils, calc.OilAmount{Grams: around("g", 1, 2000), SV: around("sv", 90, 270)})
		}
		var alkalis []calc.AlkaliAmount
		for range rapid.IntRange(0, 2).Draw(t, "alkalis") {
			alkalis = append(alkalis, calc.AlkaliAmount{
				Grams: around("alkali", 1, 500), Purity: around("purity", 0.5, 1), MolarMass: calc.MolarMassNaOH,
			})
		}
		b, parts := calc.SuperfatBand(oils, alkalis, float64(rapid.IntRange(0, 50).Draw(t, "acids")))
		if !slices.IsSorted([]float64{b.WorstLow, b.Low, b.Percent, b.High, b.WorstHigh}) {
			t.Fatalf("band out of order: %+v", b)
		}
		var sum float64
		for i, p := range parts {
			sum += p.Share
			if i > 0 && p.Share > parts[i-1].Share {
				t.Fatalf("contributions out of order: %v", parts)
			}
		}
		if parts != nil && math.Abs(sum-1) > 1e-9 {
			t.Fatalf("contributions add up to %g", sum)
		}
	})
}

// monteCarlo gives superfats in percent, sorted, from a fixed seed.
func monteCarlo(oils []calc.OilAmount, alkalis []calc.AlkaliAmount, acids float64) []float64 {
	return drawn(oils, alkalis, acids, 200_000)
}

// drawn takes every input from its rectangle, so many times.
func drawn(oils []calc.OilAmount, alkalis []calc.AlkaliAmount, acids float64, times int) []float64 {
	random := rand.New(rand.NewPCG(1, 2))
	draw := func(i calc.Interval) float64 { return i.Low + (i.High-i.Low)*random.Float64() }
	draws := make([]float64, times)
	for i := range draws {
		var n, a float64
		for _, o := range oils {
			n += draw(o.Grams) * draw(o.SV) / 1000
		}
		for _, k := range alkalis {
			a += draw(k.Grams) * draw(k.Purity) * calc.MolarMassKOH / k.MolarMass
		}
		draws[i] = 100 * (1 - (a-acids)/n)
	}
	slices.Sort(draws)
	return draws
}

func moments(values []float64) (mean, deviation float64) {
	for _, v := range values {
		mean += v / float64(len(values))
	}
	for _, v := range values {
		deviation += (v - mean) * (v - mean) / float64(len(values))
	}
	return mean, math.Sqrt(deviation)
}

// covered gives the fraction of sorted draws inside the band.
func covered(draws []float64, band calc.Superfat) float64 {
	from, _ := slices.BinarySearch(draws, band.Low)
	to, _ := slices.BinarySearch(draws, band.High)
	return float64(to-from) / float64(len(draws))
}

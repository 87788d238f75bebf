package calc_test

import (
	"math"
	"testing"

	"bench/internal/calc"
	"bench/internal/near"
)

// trial is a recipe for the Monte Carlo run: oils with what is open about them,
// the shares of the alkalis, and the superfat that it is planned for.
type trial struct {
	name     string
	oils     []calc.OilAmount
	alkalis  []calc.AlkaliAmount // shares of the alkali, in place of grams
	readsTo  float64             // of the scale for the alkali, in grams
	superfat float64
	acids    float64 // grams of potassium hydroxide
}

// weighed turns the shares into grams.
func (r trial) weighed() []calc.AlkaliAmount {
	out := make([]calc.AlkaliAmount, len(r.alkalis))
	for i, a := range r.alkalis {
		grams := calc.AlkaliNeeded(calc.AlkaliAsKOH(r.oils), r.acids, r.superfat, a.Grams.Nominal, a.MolarMass, a.Purity.Nominal)
		a.Grams = calc.Weighed(grams, r.readsTo, 0)
		out[i] = a
	}
	return out
}

// The ranges are those of the oils table: Codex CXS 210 (second-hand; palm
// kernel from memory), CXS 33 (olive, from memory), CXS 325R (shea,
// second-hand), BP (castor, second-hand), USP (stearic acid).
func trials() []trial {
	on := func(name string, grams, readsTo, low, high float64) calc.OilAmount {
		return calc.OilAmount{name, calc.Weighed(grams, readsTo, 0), calc.Published(low, high)}
	}
	naoh := func(share float64, purity calc.Interval) calc.AlkaliAmount {
		return calc.AlkaliAmount{"sodium hydroxide", calc.Exactly(share), purity, calc.MolarMassNaOH}
	}
	koh := calc.AlkaliAmount{"potassium hydroxide", calc.Exactly(0.6), calc.StatedPurity(0.9), calc.MolarMassKOH}
	certified := []calc.OilAmount{on("olive", 450, 1, 184, 196), on("coconut", 300, 1, 248, 265), on("palm", 250, 1, 190, 209)}
	for i := range certified {
		certified[i].SV = calc.Certificate(certified[i].SV.Nominal)
	}
	return []trial{
		{
			"one oil",
			[]calc.OilAmount{on("olive", 1000, 1, 184, 196)},
			[]calc.AlkaliAmount{naoh(1, calc.StatedPurity(0.99))},
			0.1, 0.05, 0,
		},
		{
			"lighthouse, purity not stated",
			[]calc.OilAmount{
				on("olive", 900, 1, 184, 196), on("coconut", 600, 1, 248, 265), on("palm", 400, 1, 190, 209), on("shea", 100, 1, 160, 195),
			},
			[]calc.AlkaliAmount{naoh(1, calc.UnstatedPurity())},
			0.1, 0.05, 0,
		},
		{
			"certificates, an acid, a fine scale", certified,
			[]calc.AlkaliAmount{naoh(1, calc.StatedPurity(0.985))},
			0.01, 0.06, 8.8,
		},
		{
			"shaving puck of both hydroxides",
			[]calc.OilAmount{
				on("stearic acid", 260, 0.1, 194, 212), on("coconut", 150, 0.1, 248, 265), on("castor", 90, 0.1, 176, 187),
			},
			[]calc.AlkaliAmount{naoh(0.4, calc.StatedPurity(0.99)), koh},
			0.1, 0.04, 0,
		},
		{
			"a small batch on a coarse scale",
			[]calc.OilAmount{
				on("coconut", 90, 2, 248, 265), on("palm kernel", 60, 2, 230, 254), on("olive", 50, 2, 184, 196),
			},
			[]calc.AlkaliAmount{naoh(1, calc.StatedPurity(0.998))},
			1, 0.15, 0,
		},
	}
}

// JCGM 101:2008 (GUM supplement 1) with a million draws each: the band must
// hold 95 % of them, and not by being wide. The shortest interval that holds
// 95 % is its 5.3.4.
func TestBandAgainstAMillionDraws(t *testing.T) {
	if testing.Short() {
		t.Skip("draws five million superfats")
	}
	for _, r := range trials() {
		alkalis := r.weighed()
		band, _ := calc.SuperfatBand(r.oils, alkalis, r.acids)
		near.To(t, r.name+", nominal", band.Percent, 100*r.superfat, 1e-9)
		draws := drawn(r.oils, alkalis, r.acids, 1_000_000)

		share, shortest := covered(draws, band), shortestInterval(draws, 0.95)
		wide := (band.High - band.Low) / shortest
		t.Logf("%-36s band %6.2f to %5.2f %%, holds %.2f %% of the draws, %.3f of the shortest interval", r.name, band.Low, band.High, 100*share, wide)
		if share < 0.95 {
			t.Errorf("%s: the band holds %.2f %% of the draws, want 95 %%", r.name, 100*share)
		}
		if wide > 1.25 {
			t.Errorf("%s: the band is %.3f times the shortest interval, want at most 1.25", r.name, wide)
		}
		if band.Low < band.WorstLow || band.High > band.WorstHigh {
			t.Errorf("%s: the band passes the worst case: %+v", r.name, band)
		}
		if draws[0] < band.WorstLow || draws[len(draws)-1] > band.WorstHigh {
			t.Errorf("%s: draws from %.2f to %.2f %% pass the worst case %+v", r.name, draws[0], draws[len(draws)-1], band)
		}
	}
}

// shortestInterval gives the width of the shortest interval of sorted draws
// that holds so much of them.
func shortestInterval(draws []float64, share float64) float64 {
	inside := int(math.Ceil(share * float64(len(draws))))
	shortest := math.Inf(1)
	for i := range draws[:len(draws)-inside+1] {
		shortest = math.Min(shortest, draws[i+inside-1]-draws[i])
	}
	return shortest
}

// Of a straight ramp any part is as short as another; a crowd is the shortest.
func TestShortestInterval(t *testing.T) {
	ramp := make([]float64, 1001)
	for i := range ramp {
		ramp[i] = float64(i) / 10
	}
	near.To(t, "95 % of 0 to 100", shortestInterval(ramp, 0.95), 95, 1e-9)
	near.To(t, "half at one end", shortestInterval(append(make([]float64, 1000), ramp...), 0.5), 0, 0)
}

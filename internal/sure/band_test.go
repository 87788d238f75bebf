package sure_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"bench/internal/calc"
	"bench/internal/oils"
	"bench/internal/sure"
)

// weighed gives an account of oils, 100 g for each of their shares in percent on a
// scale that reads to a gram, with the alkali for a superfat.
func weighed(shares map[string]float64, superfat, reads float64, alkalis ...calc.AlkaliAmount) sure.Account {
	var all sure.Oils
	for _, o := range oils.All() {
		if share := shares[o.Key]; share > 0 {
			all.Add(o.Name, calc.Weighed(10*share, 1, 0), 1, calc.Published(o.SV.Low, o.SV.High))
		}
	}
	a := sure.Account{Oils: all}
	for _, k := range alkalis {
		grams := calc.AlkaliNeeded(calc.AlkaliAsKOH(all), 0, superfat, k.Grams.Nominal, k.MolarMass, k.Purity.Nominal)
		k.Grams = calc.Weighed(grams, reads, 0)
		a.Alkalis = append(a.Alkalis, k)
	}
	return a
}

func soda(share float64, purity calc.Interval) calc.AlkaliAmount {
	return calc.AlkaliAmount{Name: "sodium hydroxide", Grams: calc.Exactly(share), Purity: purity, MolarMass: calc.MolarMassNaOH}
}

func potash(share float64) calc.AlkaliAmount {
	return calc.AlkaliAmount{Name: "potassium hydroxide", Grams: calc.Exactly(share), Purity: calc.StatedPurity(0.9), MolarMass: calc.MolarMassKOH}
}

// draws takes every input from its rectangle (JCGM 101:2008), so many times, from
// a fixed seed, and gives the superfats in percent, sorted.
func draws(a sure.Account, times int) []float64 {
	random := rand.New(rand.NewPCG(3, 4))
	draw := func(i calc.Interval) float64 { return i.Low + (i.High-i.Low)*random.Float64() }
	list := make([]float64, times)
	for i := range list {
		var need, have float64
		for _, o := range a.Oils {
			need += draw(o.Grams) * draw(o.SV) / 1000
		}
		for _, k := range a.Alkalis {
			have += draw(k.Grams) * draw(k.Purity) * calc.MolarMassKOH / k.MolarMass
		}
		list[i] = 100 * (1 - (have-a.Acids)/need)
	}
	slices.Sort(list)
	return list
}

// holds checks a band against draws: at least 95 % of them are in it, and it is
// at most 1.25 times the shortest interval that holds 95 %, and never passes the
// worst case (JCGM 101:2008, 5.3.4 for the shortest interval).
func holds(t *testing.T, what string, a sure.Account, times int) (share, wide float64) {
	t.Helper()
	band, _ := a.Band()
	list := draws(a, times)
	from, _ := slices.BinarySearch(list, band.Low)
	to, _ := slices.BinarySearch(list, band.High)
	inside, shortest := times*95/100, math.Inf(1)
	for i := range list[:times-inside+1] {
		shortest = min(shortest, list[i+inside-1]-list[i])
	}
	share, wide = float64(to-from)/float64(times), (band.High-band.Low)/shortest
	if share < 0.95 || wide > 1.25 || band.Low < band.WorstLow || band.High > band.WorstHigh {
		t.Errorf("%s: %+v holds %.2f %% of the draws and is %.3f times the shortest interval", what, band, 100*share, wide)
	}
	return share, wide
}

// The puck of two alkalis, bars of one oil, and soft soap of one oil, with a
// million draws each. Ranges: Codex CXS 210 and 325R, BP, USP, each as the table
// marks it.
func TestBandsAgainstAMillionDraws(t *testing.T) {
	if testing.Short() {
		t.Skip("draws millions of superfats")
	}
	puck := map[string]float64{"shea": 40, "coconut": 25, "stearic_acid": 20, "castor": 15}
	for _, c := range []struct {
		what string
		a    sure.Account
	}{
		{"puck, one purity not stated", weighed(puck, 0.05, 0.1, potash(0.6), soda(0.4, calc.UnstatedPurity()))},
		{"puck, both stated", weighed(puck, 0.05, 0.1, potash(0.6), soda(0.4, calc.StatedPurity(0.99)))},
		{"shea alone, not stated", weighed(map[string]float64{"shea": 100}, 0.05, 0.1, soda(1, calc.UnstatedPurity()))},
		{"olive alone, not stated", weighed(map[string]float64{"olive": 100}, 0.05, 0.1, soda(1, calc.UnstatedPurity()))},
		{"coconut alone, potassium hydroxide", weighed(map[string]float64{"coconut": 100}, 0.02, 0.1, potash(1))},
		{"shea and coconut, potassium hydroxide", weighed(map[string]float64{"shea": 50, "coconut": 50}, 0.03, 1, potash(1))},
	} {
		share, wide := holds(t, c.what, c.a, 1_000_000)
		t.Logf("%-40s holds %.2f %% of the draws, %.3f of the shortest interval", c.what, 100*share, wide)
	}
}

// Every oil of the table by itself, and each in the company of a little castor,
// under either alkali.
func TestBandOfEveryOil(t *testing.T) {
	if testing.Short() {
		t.Skip("draws millions of superfats")
	}
	for _, o := range oils.All() {
		for _, rest := range []float64{0, 3, 15} {
			shares := map[string]float64{o.Key: 100 - rest, "castor": rest}
			if o.Key == "castor" {
				shares = map[string]float64{o.Key: 100}
			}
			holds(t, o.Key+", sodium hydroxide of unstated purity", weighed(shares, 0.05, 0.1, soda(1, calc.UnstatedPurity())), 20_000)
			holds(t, o.Key+", sodium hydroxide", weighed(shares, 0.05, 1, soda(1, calc.StatedPurity(0.998))), 20_000)
			holds(t, o.Key+", potassium hydroxide", weighed(shares, 0.05, 0.1, potash(1)), 20_000)
		}
	}
}

// An unstated purity may be any from 95 to 100 %, and may be the best: the band
// holds for a container that really is pure, too. Its upper end is for the others,
// so only how much it holds is asked.
func TestBandOfAPureContainer(t *testing.T) {
	for _, o := range oils.All() {
		a := weighed(map[string]float64{o.Key: 90, "castor": 10}, 0.05, 0.1, soda(1, calc.UnstatedPurity()))
		band, _ := a.Band()
		a.Alkalis[0].Purity = calc.Exactly(1)
		list := draws(a, 20_000)
		below, _ := slices.BinarySearch(list, band.Low)
		if share := float64(below) / 20_000; share > 0.05 {
			t.Errorf("%s: %.2f %% of the draws lie below the band %+v", o.Key, 100*share, band)
		}
	}
}

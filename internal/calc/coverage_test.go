package calc_test

import (
	"testing"

	"bench/internal/calc"
)

// One oil with sodium hydroxide of unstated purity, from a fine scale and a big
// batch to 50 g on a scale that reads to a gram: the band is never wider than 1.25
// times the shortest interval, and it holds 95 % whether the purity lies anywhere
// from 95 to 100 % or the container really is pure.
func TestBandOfOneOil(t *testing.T) {
	if testing.Short() {
		t.Skip("draws millions of superfats")
	}
	for _, half := range []float64{0.002, 0.01, 0.03, 0.1} {
		for _, c := range []struct{ grams, reads float64 }{{50, 1}, {200, 1}, {1000, 1}, {20, 0.1}, {1000, 0.1}} {
			r := trial{
				oils:    []calc.OilAmount{{"olive", calc.Weighed(c.grams, c.reads, 0), calc.Published(190*(1-half), 190*(1+half))}},
				alkalis: []calc.AlkaliAmount{{"sodium hydroxide", calc.Exactly(1), calc.UnstatedPurity(), calc.MolarMassNaOH}},
				readsTo: c.reads, superfat: 0.05,
			}
			alkalis := r.weighed()
			band, _ := calc.SuperfatBand(r.oils, alkalis, 0)
			draws := drawn(r.oils, alkalis, 0, 100_000)
			if wide := (band.High - band.Low) / shortestInterval(draws, 0.95); wide > 1.25 {
				t.Errorf("±%g of the value, %g g by %g g: %.3f times the shortest interval", half, c.grams, c.reads, wide)
			}
			if share := covered(draws, band); share < 0.95 {
				t.Errorf("±%g of the value, %g g by %g g: holds %.2f %%", half, c.grams, c.reads, 100*share)
			}
			alkalis[0].Purity = calc.Exactly(1)
			if share := covered(drawn(r.oils, alkalis, 0, 100_000), band); share < 0.95 {
				t.Errorf("±%g of the value, %g g by %g g, pure: holds %.2f %%", half, c.grams, c.reads, 100*share)
			}
		}
	}
}

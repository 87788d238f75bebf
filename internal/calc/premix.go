package calc

import (
	"fmt"
	"math"
)

// FromPremelted gives the grams of premelted oils, in fixed shares, that bring
// as much of every oil as they can without bringing too much of any, and the
// grams of each oil that are then still to weigh. Shares are fractions of 1, in
// the order of the oils.
func FromPremelted(oilsGrams, shares []float64) (premeltedGrams float64, extra []float64, err error) {
	if len(oilsGrams) != len(shares) {
		return 0, nil, fmt.Errorf("%d oils and %d shares: state one for each", len(oilsGrams), len(shares))
	}
	if err := Possible(oilsGrams...); err != nil {
		return 0, nil, err
	}
	premeltedGrams = math.Inf(1)
	var sum float64
	for i, share := range shares {
		if share < 0 {
			return 0, nil, fmt.Errorf("share of %.4g %% is not possible: state zero or more", 100*share)
		}
		sum += share
		if share > 0 {
			premeltedGrams = math.Min(premeltedGrams, oilsGrams[i]/share)
		}
	}
	if !(math.Abs(sum-1) <= 1e-6) {
		return 0, nil, fmt.Errorf("shares of the premelted oils add up to %.4g %%: make them 100 %%", 100*sum)
	}
	extra = make([]float64, len(oilsGrams))
	for i, grams := range oilsGrams {
		extra[i] = math.Max(0, grams-premeltedGrams*shares[i])
	}
	return premeltedGrams, extra, nil
}

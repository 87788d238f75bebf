package label

import (
	"fmt"
	"math"
	"strconv"

	"bench/internal/quantity"
)

// Factors of 16 CFR 500.19 (read): 1 oz is 28.3495 g, and none other is to be
// used.
const (
	gramsPerOunce  = 28.3495
	ouncesPerPound = 16
)

// text gives the net weight as the market writes it.
func (n Net) text(m Market) string {
	switch {
	case n.Nominal == 0:
		return ""
	case m == US:
		return usWeight(n.Nominal)
	}
	return strconv.FormatInt(int64(n.Nominal/quantity.Gram), 10) + " g"
}

// usWeight writes ounces, from one pound on with pounds as well, and grams
// behind them: "NET WT 4.2 OZ (119 g)" (16 CFR 500.9 and 21 CFR 701.13, from
// memory). Both are rounded down, so that neither says more than there is. The
// grams have three digits, or two below 100 g (16 CFR 500.19(b), read).
func usWeight(nominal quantity.Mass) string {
	tenths := math.Floor(nominal.Grams()/gramsPerOunce*10 + 1e-9)
	ounces := tenths / 10
	words := fmt.Sprintf("NET WT %s OZ", short(ounces))
	if ounces >= ouncesPerPound {
		pounds := math.Floor(ounces / ouncesPerPound)
		words += fmt.Sprintf(" (%.0f LB %s OZ)", pounds, short(math.Round((ounces-pounds*ouncesPerPound)*10)/10))
	}
	return fmt.Sprintf("%s (%s)", words, metric(ounces*gramsPerOunce))
}

// metric gives grams in three digits, or two below 100 g, rounded down.
func metric(g float64) string {
	switch {
	case g >= 1000:
		return fmt.Sprintf("%.2f kg", math.Floor(g/10)/100)
	case g >= 10:
		return fmt.Sprintf("%.0f g", math.Floor(g))
	}
	return fmt.Sprintf("%.1f g", math.Floor(g*10)/10)
}

func short(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

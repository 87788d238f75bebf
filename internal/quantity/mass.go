// Package quantity holds what a maker measures: masses, lengths, volumes,
// temperatures, shares and times, with their parsing and their display.
//
// The rule: a quantity is a whole number of a small unit, so that sums are
// exact and two plans can be compared with ==. Floating point belongs to calc;
// it becomes a quantity again through one of the rounding functions here.
package quantity

import (
	"math"
	"strconv"
	"strings"
)

// Mass is a mass in whole milligrams.
type Mass int64

// Units of mass. The avoirdupois pound is 453.59237 g exactly (International
// Yard and Pound agreement, 1959; NIST Handbook 44, appendix C, from memory),
// so an ounce is 28.349523125 g and not a whole number of milligrams.
const (
	Milligram Mass = 1
	Gram      Mass = 1_000
	Kilogram  Mass = 1_000_000

	MilligramsPerPound = 453_592.37
	MilligramsPerOunce = MilligramsPerPound / 16
)

// Grams gives the mass as a floating-point number of grams, for calc.
func (m Mass) Grams() float64 { return float64(m) / float64(Gram) }

// FromGrams rounds g grams to the nearest milligram, halves away from zero.
func FromGrams(g float64) Mass { return Mass(math.Round(g * float64(Gram))) }

// Abs gives how much it is, whichever way.
func (m Mass) Abs() Mass { return max(m, -m) }

// RoundTo gives the reading of a scale that reads to d which is nearest to m,
// halves away from zero. A d of zero or less leaves m as it is.
func (m Mass) RoundTo(d Mass) Mass {
	if d <= 0 {
		return m
	}
	if m < 0 {
		return -(-m).RoundTo(d)
	}
	return (m + d/2) / d * d
}

// FloorTo gives the greatest reading of a scale that reads to d which is not
// above m, for m of zero or more.
func (m Mass) FloorTo(d Mass) Mass {
	if d <= 0 {
		return m
	}
	return m / d * d
}

// At shows the mass in grams with as many decimals as a scale that reads to d
// shows, without the unit: 312.0 at 0.1 g, 312 at 1 g. Thousands are not
// separated, because a scale does not separate them.
func (m Mass) At(d Mass) string {
	decimals := 3
	switch {
	case d >= Gram:
		decimals = 0
	case d >= Gram/10:
		decimals = 1
	case d >= Gram/100:
		decimals = 2
	}
	return strconv.FormatFloat(m.RoundTo(d).Grams(), 'f', decimals, 64)
}

// Reading shows the mass as a scale that reads to d shows it, with the unit: 312.0 g.
func (m Mass) Reading(d Mass) string { return m.At(d) + " g" }

// String shows the mass in grams with its unit and without idle zeros.
func (m Mass) String() string {
	s := strconv.FormatFloat(m.Grams(), 'f', 3, 64)
	s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	return s + " g"
}

package quantity

import (
	"math"
	"strconv"
	"strings"
)

// Ratio is a dimensionless share in whole millionths: 5 % is 50 000, 3 g/kg is
// 3 000. Shares of a recipe therefore add up exactly, or they do not add up.
type Ratio int64

// Units of ratio.
const (
	Millionth   Ratio = 1
	GramPerKilo Ratio = 1_000
	Percent     Ratio = 10_000
	Whole       Ratio = 1_000_000
)

// Fraction gives the ratio as a floating-point number, 1 for the whole.
func (r Ratio) Fraction() float64 { return float64(r) / float64(Whole) }

// FromFraction rounds f to the nearest millionth.
func FromFraction(f float64) Ratio { return Ratio(math.Round(f * float64(Whole))) }

// Of gives this share of m, rounded to the nearest milligram.
func (r Ratio) Of(m Mass) Mass { return FromGrams(r.Fraction() * m.Grams()) }

// String shows the ratio as a percentage without idle zeros.
func (r Ratio) String() string {
	s := strconv.FormatFloat(float64(r)/float64(Percent), 'f', 4, 64)
	return strings.TrimRight(strings.TrimRight(s, "0"), ".") + " %"
}

// Temperature is a temperature in whole thousandths of a degree Celsius.
type Temperature int64

// Degree is one degree Celsius.
const Degree Temperature = 1_000

// Celsius gives the temperature as a floating-point number of degrees Celsius.
func (t Temperature) Celsius() float64 { return float64(t) / float64(Degree) }

// FromCelsius rounds c degrees Celsius to the nearest thousandth.
func FromCelsius(c float64) Temperature { return Temperature(math.Round(c * float64(Degree))) }

// String shows the temperature in degrees Celsius, to a tenth, without idle
// zeros.
func (t Temperature) String() string {
	s := strconv.FormatFloat(t.Celsius(), 'f', 1, 64)
	return strings.TrimSuffix(s, ".0") + " °C"
}

// RoundTo gives the nearest multiple of step, halves away from zero.
func (t Temperature) RoundTo(step Temperature) Temperature {
	if step <= 0 {
		return t
	}
	over := t % step
	switch t -= over; { // Not by the sign: the lowest one has no positive of its own.
	case over >= step-step/2:
		return t + step
	case -over >= step-step/2:
		return t - step
	}
	return t
}

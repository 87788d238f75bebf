package calc

import "math"

// Interval is a value with the ends between which it is known to lie. Nothing
// is known about where in between, so it is treated as rectangular (GUM, JCGM
// 100:2008, 4.3.7). The nominal value need not be the midpoint.
type Interval struct{ Low, Nominal, High float64 }

// Half-widths where no document states one: common practice, no source.
const (
	certificateSpread  = 0.005 // of a certificate's saponification value
	statedPuritySpread = 0.005 // of the container's purity, as a fraction of 1
	lowestPurity       = 0.95  // sodium hydroxide, JECFA and USP-NF: 95.0 % at least
)

// Exactly is a value with nothing left open.
func Exactly(v float64) Interval { return Interval{v, v, v} }

// Published is a published range with its midpoint as the nominal value.
func Published(low, high float64) Interval { return Interval{low, (low + high) / 2, high} }

// Certificate is a saponification value from a certificate that states no
// spread of its own: ±0.5 %.
func Certificate(sv float64) Interval {
	return Interval{sv * (1 - certificateSpread), sv, sv * (1 + certificateSpread)}
}

// StatedPurity is the purity on a container, ±0.5 % and never above 100 %.
func StatedPurity(fraction float64) Interval {
	return Interval{fraction - statedPuritySpread, fraction, math.Min(1, fraction+statedPuritySpread)}
}

// UnstatedPurity is sodium hydroxide of unknown purity: counted as 100 %, so
// that there is never more alkali than thought, yet possibly as low as 95 %.
func UnstatedPurity() Interval { return Interval{lowestPurity, 1, 1} }

// Weighed is a net weight from two readings of a scale that reads to
// readsToGrams, each open by half of that, and a check weight's error if one
// was found. Two readings make a triangular spread; taking it as rectangular
// is on the careful side.
func Weighed(grams, readsToGrams, checkErrorGrams float64) Interval {
	a := readsToGrams + math.Abs(checkErrorGrams)
	return Interval{math.Max(0, grams-a), grams, grams + a}
}

func (i Interval) mid() float64 { return (i.Low + i.High) / 2 }

// uncertainty is the standard uncertainty of a rectangular spread: its
// half-width over √3 (JCGM 100:2008, 4.3.7).
func (i Interval) uncertainty() float64 { return (i.High - i.Low) / 2 / math.Sqrt(3) }

// nearEnd is the standard uncertainty about the nominal value that reaches no
// further than its nearer end: none for a nominal value at an end.
func (i Interval) nearEnd() float64 {
	return math.Min(i.High-i.Nominal, i.Nominal-i.Low) / math.Sqrt(3)
}

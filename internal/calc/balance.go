package calc

import (
	"cmp"
	"math"
	"slices"
)

// balance is what the alkali balance of a batter is made of.
type balance struct {
	oils    []OilAmount
	alkalis []AlkaliAmount
	acids   float64 // grams of KOH that acids use up
}

// term is one input's effect on the superfat: sensitivity times uncertainty.
type term struct {
	name   string
	input  Input
	effect float64
}

// sums gives N and A in grams of KOH, with a value picked from each interval.
func (b balance) sums(pickOils, pickAlkalis func(Interval) float64) (n, a float64) {
	for _, o := range b.oils {
		n += pickOils(o.Grams) * pickOils(o.SV) / 1000
	}
	for _, k := range b.alkalis {
		a += pickAlkalis(k.Grams) * pickAlkalis(k.Purity) * MolarMassKOH / k.MolarMass
	}
	return n, a
}

// superfat is a fraction of 1; it is undefined without oils.
func (b balance) superfat(pick func(Interval) float64) (float64, bool) {
	n, a := b.sums(pick, pick)
	if n <= 0 {
		return 0, false
	}
	return 1 - (a-b.acids)/n, true
}

// worst gives the superfat with all inputs at their ends. All four pairs of
// ends are tried, because acids above the alkali turn the direction round.
func (b balance) worst(nominal float64) (lowest, highest float64) {
	low := func(i Interval) float64 { return i.Low }
	high := func(i Interval) float64 { return i.High }
	nLow, aLow := b.sums(low, low)
	nHigh, aHigh := b.sums(high, high)
	lowest, highest = nominal, nominal
	for _, n := range []float64{nLow, nHigh} {
		for _, a := range []float64{aLow, aHigh} {
			if n > 0 {
				s := 1 - (a-b.acids)/n
				lowest, highest = math.Min(lowest, s), math.Max(highest, s)
			}
		}
	}
	return lowest, highest
}

// terms linearises the superfat about the estimates that spread gives along
// with each standard uncertainty.
func (b balance) terms(spread func(Interval) (estimate, uncertainty float64)) []term {
	n, a := b.sums(
		func(i Interval) float64 { v, _ := spread(i); return v },
		func(i Interval) float64 { v, _ := spread(i); return v },
	)
	perN, perA := (a-b.acids)/(n*n), 1/n // |∂s/∂N| and |∂s/∂A|
	out := make([]term, 0, 2*(len(b.oils)+len(b.alkalis)))
	for _, o := range b.oils {
		grams, uGrams := spread(o.Grams)
		sv, uSV := spread(o.SV)
		out = append(
			out,
			term{o.Name, InputMass, perN * sv / 1000 * uGrams},
			term{o.Name, InputSV, perN * grams / 1000 * uSV},
		)
	}
	for _, k := range b.alkalis {
		grams, uGrams := spread(k.Grams)
		purity, uPurity := spread(k.Purity)
		asKOH := MolarMassKOH / k.MolarMass
		out = append(
			out,
			term{k.Name, InputMass, perA * asKOH * purity * uGrams},
			term{k.Name, InputPurity, perA * asKOH * grams * uPurity},
		)
	}
	return out
}

// combined is the root of the sum of squares (JCGM 100:2008, 5.1.2).
func combined(terms []term) float64 {
	var sum float64
	for _, t := range terms {
		sum += t.effect * t.effect
	}
	return math.Sqrt(sum)
}

// coverage gives the factor that covers 95 %, which is 2 unless one or two
// rectangular terms outweigh all others (rest within 0.3 of them): the sum of two
// is a trapezoid, of the shape beta, and one alone is its limit (EA-4/02, S9.14
// and S10.13, from memory; a test holds it to draws).
func coverage(terms []term) float64 {
	var first, second float64
	for _, t := range terms {
		switch e := math.Abs(t.effect); {
		case e > first:
			first, second = e, first
		case e > second:
			second = e
		}
	}
	square := first*first + second*second
	if rest := math.Max(0, combined(terms)*combined(terms)-square); first == 0 || rest > 0.09*square {
		return CoverageFactor
	}
	const p = 0.95
	beta := (first - second) / (first + second)
	k := p * (1 + beta) / 2
	if beta < p/(2-p) {
		k = 1 - math.Sqrt((1-p)*(1-beta*beta))
	}
	return k / math.Sqrt((1+beta*beta)/6)
}

// curved follows s = 1 − A/N itself to u below a superfat, instead of its tangent:
// along the way on which N and A part it as they part the variance.
func (b balance) curved(superfat, u float64, terms []term) float64 {
	ratio, all := 1-superfat, combined(terms)
	if ratio <= u || all == 0 {
		return superfat - u
	}
	ofN := combined(terms[:2*len(b.oils)])
	n := ofN * ofN / (all * all) * u / ratio
	return 1 - ratio*(1+u/ratio-n)/(1-n)
}

// shares ranks the terms by their part of the variance and leaves out those
// that add nothing.
func shares(terms []term) []Contribution {
	total := combined(terms)
	if total == 0 {
		return nil
	}
	var out []Contribution
	for _, t := range terms {
		if part := t.effect / total; part != 0 {
			out = append(out, Contribution{t.name, t.input, part * part})
		}
	}
	slices.SortStableFunc(out, func(a, b Contribution) int { return cmp.Compare(b.Share, a.Share) })
	return out
}

package label

import (
	"fmt"
	"math"

	"bench/internal/quantity"
)

// Weights are what is known of the weight of a bar as it will be sold.
type Weights struct {
	Each     []quantity.Mass // Each are the bars that were weighed one by one.
	Together quantity.Mass   // Together is the weight of Count bars whose spread is not known.
	Count    int
	Bars     int    // Bars is how many there are, 0 if that is not known.
	From     string // From says in words where the weights come from.
	Forecast bool   // Forecast says that they are not weights of bars as they are sold.
}

// Net is a net weight that the weighed bars allow, with what it rests on. The
// zero Nominal is none.
type Net struct {
	Nominal quantity.Mass
	Allowed quantity.Mass // Allowed is the tolerable deficiency, TNE.
	T1, T2  quantity.Mass // T1 is Nominal less one deficiency, T2 less two.
	Mean    quantity.Mass
	Spread  quantity.Mass // Spread is the standard deviation of bars weighed one by one.
	Weighed int
	From    string
	Doubts  []string
}

// bands are the tolerable negative errors of Directive 76/211/EEC, annex I, 2.4
// (read; the last line from memory): up to a nominal weight, a percentage or
// grams.
var bands = []struct { //nolint:gochecknoglobals // A table.
	upTo     quantity.Mass
	permille int64 // permille of the nominal weight, or
	fixed    quantity.Mass
}{
	{50 * quantity.Gram, 90, 0},
	{100 * quantity.Gram, 0, 4500},
	{200 * quantity.Gram, 45, 0},
	{300 * quantity.Gram, 0, 9 * quantity.Gram},
	{500 * quantity.Gram, 30, 0},
	{1000 * quantity.Gram, 0, 15 * quantity.Gram},
	{10_000 * quantity.Gram, 15, 0},
}

// Least is the smallest nominal weight of the table.
const Least = 5 * quantity.Gram

// TNE gives the tolerable negative error of a nominal weight; percentages are
// rounded up to the next 0.1 g (annex I, 2.4, from memory). Outside 5 g to 10 kg
// there is none.
func TNE(nominal quantity.Mass) (quantity.Mass, bool) {
	if nominal < Least {
		return 0, false
	}
	for _, b := range bands {
		if nominal > b.upTo {
			continue
		}
		if b.fixed > 0 {
			return b.fixed, true
		}
		const tenth = int64(quantity.Gram / 10)
		exact := int64(nominal) * b.permille // In thousandths of a milligram.
		return quantity.Mass((exact + 1000*tenth - 1) / (1000 * tenth) * tenth), true
	}
	return 0, false
}

// Packers' rules: the average is not below the nominal weight, at most 2.5 % of
// the bars are below it by more than one deficiency, and none by more than two
// (76/211/EEC annex I, 1.1 to 1.3, read; the 2.5 % from memory).
const mostShort = 0.025

// z is how many standard deviations below the mean 2.5 % of a normal
// distribution lie.
const z = 1.960

// Suggest gives the largest whole number of grams that the bars allow.
func Suggest(w Weights) Net {
	n := Net{From: w.From, Weighed: len(w.Each) + w.Count}
	if n.Weighed == 0 {
		return n
	}
	sum := w.Together
	for _, m := range w.Each {
		sum += m
	}
	n.Mean = sum / quantity.Mass(n.Weighed)
	n.Spread = spread(w.Each)
	for g := n.Mean.FloorTo(quantity.Gram); g >= Least; g -= quantity.Gram {
		if n.allows(w, g) {
			n.Nominal = g
			n.Allowed, _ = TNE(g)
			n.T1, n.T2 = g-n.Allowed, g-2*n.Allowed
			break
		}
	}
	n.doubt(w)
	return n
}

// allows says that the rules hold for a nominal weight. Where only some of the
// bars were weighed, the others are taken to be spread like them.
func (n Net) allows(w Weights, nominal quantity.Mass) bool {
	allowed, ok := TNE(nominal)
	if !ok || n.Mean < nominal {
		return false
	}
	short := 0
	for _, m := range w.Each {
		if m < nominal-2*allowed {
			return false
		}
		if m < nominal-allowed {
			short++
		}
	}
	if float64(short) > mostShort*float64(len(w.Each)) {
		return false
	}
	sample := w.Bars == 0 || len(w.Each) < w.Bars
	return !sample || n.Mean.Grams()-z*n.Spread.Grams() >= (nominal-allowed).Grams()
}

// doubt says what the suggestion leaves open.
func (n *Net) doubt(w Weights) {
	if w.Forecast {
		n.Doubts = append(n.Doubts, "this is a forecast: weigh the cured bars before printing a weight")
	}
	if w.Count > 0 {
		n.Doubts = append(n.Doubts, fmt.Sprintf("%d bars were weighed together: how far each is off is not known; weigh some one by one", w.Count))
	}
	if len(w.Each) == 1 {
		n.Doubts = append(n.Doubts, "one bar says nothing of the spread: weigh more")
	}
	if n.Nominal == 0 {
		n.Doubts = append(n.Doubts, fmt.Sprintf("the rules hold for no weight of 5 g or more: the mean is %s", grams(n.Mean)))
	}
}

// spread is the standard deviation of a sample, zero for fewer than two.
func spread(each []quantity.Mass) quantity.Mass {
	if len(each) < 2 {
		return 0
	}
	mean, squares := 0.0, 0.0
	for _, m := range each {
		mean += m.Grams() / float64(len(each))
	}
	for _, m := range each {
		squares += (m.Grams() - mean) * (m.Grams() - mean)
	}
	return quantity.FromGrams(math.Sqrt(squares / float64(len(each)-1)))
}

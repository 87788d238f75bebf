package label_test

import (
	"testing"

	"pgregory.net/rapid"

	"bench/internal/label"
	"bench/internal/quantity"
)

const g = quantity.Gram

// Directive 76/211/EEC, annex I, 2.4 (table read; 10 kg from memory), and UK SI
// 2006/1258, schedule 5, table 2 (read), which gives the same at the ends of
// the bands. Between them by hand: 85 g 4.5 g, 120 g 5.4 g, 150 g 6.75 g rounded
// up to 6.8 g.
func TestTolerableDeficiency(t *testing.T) {
	for nominal, want := range map[quantity.Mass]quantity.Mass{
		5 * g: 500, 50 * g: 4500, 100 * g: 4500, 200 * g: 9 * g, 300 * g: 9 * g, 500 * g: 15 * g, 1000 * g: 15 * g, 10_000 * g: 150 * g,
		85 * g: 4500, 120 * g: 5400, 150 * g: 6800, 33 * g: 3000, 400 * g: 12 * g, 101 * g: 4600, 250 * g: 9 * g,
	} {
		if got, ok := label.TNE(nominal); !ok || got != want {
			t.Errorf("%v: %v, want %v", nominal, got, want)
		}
	}
	for _, none := range []quantity.Mass{0, 4 * g, 10_001 * g, -g} {
		if got, ok := label.TNE(none); ok {
			t.Errorf("%v has %v", none, got)
		}
	}
}

// Worked by hand. All bars weighed: the mean, then 2.5 % under T1, then none
// under T2.
func TestSuggest(t *testing.T) {
	many := func(n int, m quantity.Mass, more ...quantity.Mass) []quantity.Mass {
		for range n {
			more = append(more, m)
		}
		return more
	}
	for name, c := range map[string]struct {
		each []quantity.Mass
		want quantity.Mass
	}{
		"alike: the mean, whole grams":                {many(10, 100_900), 100 * g},
		"one of 40 may be short by one deficiency":    {many(39, 102*g, 94*g), 101 * g}, // Mean 101.8, T1 96.4 (4.6 %): 1/40 is 2.5 %.
		"one of 10 may not":                           {many(9, 102*g, 94*g), 98 * g},   // T1 of 98 g is 93.5, of 99 g 94.5.
		"none may be short by two, not even 1 in 100": {many(99, 102*g, 92*g), 101 * g}, // Mean 101.9; T2 of 101 g is 91.8.
		"a bar that is far too light decides":         {many(99, 102*g, 60*g), 69 * g},  // T2 of 69 g is 60.0.
		"nothing is light enough":                     {many(3, 4*g), 0},
	} {
		t.Run(name, func(t *testing.T) {
			n := label.Suggest(label.Weights{Each: c.each, Bars: len(c.each)})
			if n.Nominal != c.want {
				t.Errorf("%v of mean %v, want %v", n.Nominal, n.Mean, c.want)
			}
			if c.want > 0 && (n.T1 != n.Nominal-n.Allowed || n.T2 != n.Nominal-2*n.Allowed) {
				t.Errorf("%+v", n)
			}
		})
	}
}

// A sample must leave room for what was not weighed: the mean of 90, 100 and
// 110 g is 100 g, their deviation 10 g, and 100 - 1.96 × 10 = 80.4 g must not be
// under T1, so that 84.9 g is the limit.
func TestASampleIsTakenWithCare(t *testing.T) {
	each := []quantity.Mass{90 * g, 100 * g, 110 * g}
	if n := label.Suggest(label.Weights{Each: each, Bars: 30}); n.Nominal != 84*g {
		t.Errorf("%v", n.Nominal)
	}
	if n := label.Suggest(label.Weights{Each: each, Bars: 3}); n.Nominal != 94*g { // T1 of 94 g is 89.5 g, of 95 g 90.5 g.
		t.Errorf("%v", n.Nominal)
	}
}

func TestDoubts(t *testing.T) {
	for _, w := range []label.Weights{{Each: []quantity.Mass{100 * g}}, {Together: 1000 * g, Count: 10}, {Each: []quantity.Mass{99 * g, 100 * g}, Forecast: true}} {
		if n := label.Suggest(w); len(n.Doubts) == 0 || n.Nominal == 0 {
			t.Errorf("%+v: %+v", w, n)
		}
	}
	if n := label.Suggest(label.Weights{}); n.Nominal != 0 {
		t.Errorf("%+v", n)
	}
}

// The rules hold for what is suggested, and do not for a gram more.
func TestSuggestionIsTheLargest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		each := rapid.SliceOfN(rapid.Map(rapid.Int64Range(5_000, 200_000), func(v int64) quantity.Mass { return quantity.Mass(v) }), 1, 60).Draw(t, "bars")
		n := label.Suggest(label.Weights{Each: each, Bars: len(each)})
		if n.Nominal > 0 && !packed(each, n.Nominal) {
			t.Fatalf("%v breaks the rules", n.Nominal)
		}
		for more := n.Nominal + g; more <= n.Mean; more += g {
			if more >= 5*g && packed(each, more) {
				t.Fatalf("%v was suggested, and %v is allowed", n.Nominal, more)
			}
		}
	})
}

// packed are the packers' rules over again, by counting.
func packed(each []quantity.Mass, nominal quantity.Mass) bool {
	var sum quantity.Mass
	short, tooShort := 0, 0
	allowed, _ := label.TNE(nominal)
	for _, m := range each {
		sum += m
		if nominal-m > allowed {
			short++
		}
		if nominal-m > 2*allowed {
			tooShort++
		}
	}
	return sum >= nominal*quantity.Mass(len(each)) && tooShort == 0 && 1000*short <= 25*len(each)
}

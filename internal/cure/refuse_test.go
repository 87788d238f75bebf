package cure_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"bench/internal/cure"
)

func bar(pairs ...float64) []cure.Reading {
	var out []cure.Reading
	for i := 0; i < len(pairs); i += 2 {
		out = append(out, cure.Reading{Days: pairs[i], Grams: pairs[i+1]})
	}
	return out
}

// TestWordsInsteadOfNumbers: where there is no curve, it is said why.
func TestWordsInsteadOfNumbers(t *testing.T) {
	few := func(bars ...[]cure.Reading) [][]cure.Reading { return bars }
	for _, c := range []struct {
		name string
		bars [][]cure.Reading
		want string
	}{
		{"nothing", nil, "takes 4 weigh-ins of a bar on different days; so far it has 0"},
		{"one", few(bar(0, 112)), "so far it has 1"},
		{"three", few(bar(0, 112, 7, 107, 14, 104)), "so far it has 3"},
		{"four on one day", few(bar(0, 112, 0.01, 112.1, 0.02, 112, 0.03, 111.9)), "so far it has 1"},
		{"three bars, twice", few(bar(0, 112, 7, 107), bar(0, 110, 7, 105), bar(0, 111, 7, 106)), "so far it has 2"},
		{"no loss", few(bar(0, 112, 7, 112.1, 14, 111.9, 21, 112, 28, 112.1)), "have not lost weight"},
		{"it gains", few(bar(0, 112, 7, 113, 14, 113.6, 21, 114, 28, 114.2)), "have not lost weight"},
		{"a straight line", few(bar(0, 112, 7, 110, 14, 108.1, 21, 106, 28, 103.9)), "too early"},
		{"it speeds up", few(bar(0, 112, 7, 111.5, 14, 110, 21, 107, 28, 102)), "too early"},
		{"level at once", few(bar(0, 112, 7, 100, 14, 100.1, 21, 99.9, 28, 100)), "after the second reading"},
		{"a weight of zero", few(bar(0, 112, 7, 0, 14, 104, 21, 103)), "makes no sense"},
		{"no number", few(bar(0, 112, 7, math.NaN(), 14, 104, 21, 103)), "makes no sense"},
		{"before the cut", few(bar(-2, 112, 7, 107, 14, 104, 21, 103)), "makes no sense"},
	} {
		_, err := cure.Fit(c.bars, 0.1, 0.2)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

// TestNoMoreThanTheWater: a 2:1 lye solution with 14 % sodium hydroxide on the
// oils makes a batter of 19.7 % water (computed: 28 / (100 + 14 + 28)); a
// forecast beyond is refused with both figures.
func TestNoMoreThanTheWater(t *testing.T) {
	most := 28.0 / (100 + 14 + 28)
	c := truth{110, 24, 20}
	var readings []cure.Reading
	for _, d := range weekly {
		readings = append(readings, cure.Reading{Days: d, Grams: c.at(d)})
	}
	_, err := cure.Fit([][]cure.Reading{readings}, 0.1, most)
	var beyond *cure.BeyondWaterError
	if !errors.As(err, &beyond) || math.Abs(beyond.Loss.Value-24.0/110) > 1e-4 || !strings.Contains(err.Error(), "no more than 19.7 %") {
		t.Fatalf("%v", err)
	}
	if _, err := cure.Fit([][]cure.Reading{readings}, 0.1, 0.25); err != nil {
		t.Errorf("with more water it is possible: %v", err)
	}
}

// TestExactReadings come back as they were drawn.
func TestExactReadings(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := truth{
			rapid.Float64Range(40, 400).Draw(t, "start"), 0, rapid.Float64Range(6, 20).Draw(t, "tau"),
		}
		c.loss = c.start * rapid.Float64Range(0.06, 0.18).Draw(t, "loss")
		var bars [][]cure.Reading
		n := rapid.IntRange(1, 4).Draw(t, "bars")
		for range n {
			var b []cure.Reading
			for _, d := range weekly {
				b = append(b, cure.Reading{Days: d, Grams: c.at(d)})
			}
			rand.New(rand.NewPCG(1, rapid.Uint64().Draw(t, "order"))).Shuffle(len(b), func(i, j int) { b[i], b[j] = b[j], b[i] })
			bars = append(bars, b)
		}
		got, err := cure.Fit(bars, 0.01, 0.3)
		if err != nil {
			t.Fatal(err)
		}
		for _, each := range []struct{ got, want float64 }{
			{got.Start().Value, float64(n) * c.start},
			{got.Last().Value, float64(n) * (c.start - c.loss)},
			{got.Tau().Value, c.tau},
			{got.Loss().Value, c.loss / c.start},
			{got.At(5).Value, float64(n) * c.at(5)},
		} {
			if math.Abs(each.got-each.want) > 1e-4*each.want {
				t.Fatalf("%v is not %v: %+v", each.got, each.want, got)
			}
		}
		if day := got.SlowerThan(0.005).Value; day > 0 && math.Abs(got.Rate(day)-0.005) > 1e-9 {
			t.Fatalf("on day %v the loss is %v a week", day, got.Rate(day))
		}
	})
}

// TestNeverNonsense: whatever the readings, there are finite numbers or words.
func TestNeverNonsense(t *testing.T) {
	wild, fits := rapid.Float64(), 0
	rapid.Check(t, func(t *rapid.T) {
		var bars [][]cure.Reading
		for range rapid.IntRange(0, 3).Draw(t, "bars") {
			var b []cure.Reading
			for range rapid.OneOf(rapid.IntRange(0, 4), rapid.Just(10)).Draw(t, "readings") {
				r := cure.Reading{Days: float64(rapid.IntRange(0, 60).Draw(t, "days"))}
				r.Grams = truth{112, 13, 11}.at(r.Days) + float64(rapid.IntRange(-3, 3).Draw(t, "off"))/10
				if rapid.IntRange(0, 60).Draw(t, "wild") == 0 {
					r = cure.Reading{Days: wild.Draw(t, "days"), Grams: wild.Draw(t, "grams")}
				}
				b = append(b, r)
			}
			bars = append(bars, b)
		}
		c, err := cure.Fit(bars, 0.1, 0.2)
		if err != nil {
			return
		}
		for _, e := range []cure.Estimate{c.Start(), c.Last(), c.Tau(), c.Loss(), c.At(10), c.SlowerThan(0.005)} {
			if math.IsNaN(e.Value) || math.IsInf(e.Value, 0) || math.IsNaN(e.PlusMinus) || math.IsInf(e.PlusMinus, 0) {
				t.Fatalf("%+v from %v", e, bars)
			}
		}
		fits++
		if l := c.Loss().Value; l <= 0 || l > 0.2 {
			t.Fatalf("a loss of %v", l)
		}
	})
	if fits < 4 {
		t.Errorf("only %d of the drawn readings gave a curve: this tests nothing", fits)
	}
}

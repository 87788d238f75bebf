package calc_test

import (
	"math/big"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"bench/internal/calc"
	"bench/internal/quantity"
)

const tenth = quantity.Gram / 10

func TestPortions(t *testing.T) {
	for _, c := range []struct {
		name    string
		net     quantity.Mass
		weights []int64
		d       quantity.Mass
		want    []quantity.Mass
		rest    quantity.Mass
	}{
		// Common practice, no source.
		{"80.0 g in three", 80_000, []int64{1, 1, 1}, tenth, []quantity.Mass{26_700, 26_700, 26_600}, 0},
		{"between two readings", 80_070, []int64{1, 1, 1}, tenth, []quantity.Mass{26_700, 26_700, 26_600}, 70},
		{"stated shares", 1_000_000, []int64{60, 30, 10}, 1000, []quantity.Mass{600_000, 300_000, 100_000}, 0},
		{"largest remainder first", 10_000, []int64{10, 16, 74}, 1000, []quantity.Mass{1000, 2000, 7000}, 0},
		{"less than a reading", 50, []int64{1, 1}, tenth, []quantity.Mass{0, 0}, 50},
		{"nobody's share", 5000, []int64{0, -1}, tenth, []quantity.Mass{0, 0}, 5000},
		{"a weight below zero", 5000, []int64{-7, 1}, tenth, []quantity.Mass{0, 5000}, 0},
		{"no portions", 5000, nil, tenth, []quantity.Mass{}, 5000},
		{"no reading stated", 5, []int64{1, 1}, 0, []quantity.Mass{3, 2}, 0},
	} {
		got, rest := calc.Portions(c.net, c.weights, c.d)
		if !slices.Equal(got, c.want) || rest != c.rest {
			t.Errorf("%s: got %v and %v in the pot, want %v and %v", c.name, got, rest, c.want, c.rest)
		}
	}
}

func TestPortionsAddUpAndAreFair(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		net := quantity.Mass(rapid.Int64Range(0, 1e15).Draw(t, "net"))
		d := quantity.Mass(rapid.SampledFrom([]int64{1, 10, 100, 1000, 2000, 5000}).Draw(t, "d"))
		weights := rapid.SliceOfN(rapid.Int64Range(1, 1e15), 1, 12).Draw(t, "weights")
		portions, rest := calc.Portions(net, weights, d)

		sum, total := rest, int64(0)
		for i, p := range portions {
			sum += p
			total += weights[i]
		}
		if sum != net || rest < 0 || rest >= d {
			t.Fatalf("portions %v and rest %v do not make %v", portions, rest, net)
		}
		for i, p := range portions {
			if p%d != 0 {
				t.Fatalf("portion %v cannot be read at %v", p, d)
			}
			exact := big.NewRat(weights[i], total)
			exact.Mul(exact, big.NewRat(int64(net-rest), 1))
			off := exact.Sub(exact, big.NewRat(int64(p), 1))
			if off.Abs(off).Cmp(big.NewRat(int64(d), 1)) >= 0 {
				t.Fatalf("portion %d of %v is %v off its share", i, portions, off.FloatString(1))
			}
		}
	})
}

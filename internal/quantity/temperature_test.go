package quantity_test

import (
	"math"
	"testing"

	"bench/internal/quantity"
)

// TestTemperatureRoundTo: halves go away from zero, by hand; the lowest value that there
// is has no positive of its own, and is rounded all the same.
func TestTemperatureRoundTo(t *testing.T) {
	for _, c := range []struct{ t, step, want quantity.Temperature }{
		{14, 10, 10},
		{15, 10, 20},
		{-14, 10, -10},
		{-15, 10, -20},
		{0, 10, 0},
		{7, 3, 6},
		{8, 3, 9},
		{-8, 3, -9},
		{7, 0, 7},
		{-7, 1, -7},
		{math.MinInt64, 1, math.MinInt64},
		{math.MinInt64, 2, math.MinInt64},
	} {
		if got := c.t.RoundTo(c.step); got != c.want {
			t.Errorf("%d to %d: %d, want %d", c.t, c.step, got, c.want)
		}
	}
}

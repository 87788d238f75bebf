package main

import (
	"math"
	"testing"
)

// The nearest-rank method: the smallest sample that so large a part of all
// samples does not exceed (Hyndman and Fan 1996, definition 1).
func TestQuantile(t *testing.T) {
	samples := []float64{50, 15, 40, 20, 35}
	for _, c := range []struct{ part, want float64 }{{0.05, 15}, {0.3, 20}, {0.4, 20}, {0.5, 35}, {0.99, 50}, {1, 50}} {
		if got := quantile(samples, c.part); got != c.want {
			t.Errorf("quantile %v is %v, not %v", c.part, got, c.want)
		}
	}
	if got := quantile(nil, 0.5); !math.IsNaN(got) {
		t.Errorf("of nothing, the median is %v", got)
	}
}

// A fact is found by its first words, and not taken for one that reads alike.
func TestSavedFactIsFound(t *testing.T) {
	title := "Tip the alkali into the water, a little at a time, and stir until clear"
	short := opening(title)
	if len(short) > 40 || len(short) < 20 {
		t.Errorf("the opening is %q", short)
	}
	screen := " ▶ lye · sea  │ Tip the alkali into the water, a little at a   lye jug\n ✓ 09:00  sea: " + short + "\n"
	if !saved("sea: Tip the alkali")(screen) || saved("dusk: Tip the alkali")(screen) {
		t.Error("a saved fact is not told from another")
	}
}

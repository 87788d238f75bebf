package calc_test

import (
	"testing"

	"bench/internal/calc"
	"bench/internal/near"
)

func TestIntervals(t *testing.T) {
	for _, c := range []struct {
		name      string
		got, want calc.Interval
	}{
		{"published", calc.Published(184, 196), calc.Interval{184, 190, 196}},
		{"certificate", calc.Certificate(190), calc.Interval{189.05, 190, 190.95}},
		{"stated purity", calc.StatedPurity(0.9), calc.Interval{0.895, 0.9, 0.905}},
		{"stated purity near all", calc.StatedPurity(0.998), calc.Interval{0.993, 0.998, 1}},
		{"unstated purity", calc.UnstatedPurity(), calc.Interval{0.95, 1, 1}},
		{"two readings and a check weight", calc.Weighed(312, 1, -0.5), calc.Interval{310.5, 312, 313.5}},
		{"less than a reading", calc.Weighed(0.3, 1, 0), calc.Interval{0, 0.3, 1.3}},
	} {
		near.To(t, c.name+" low", c.got.Low, c.want.Low, 1e-9)
		near.To(t, c.name+" nominal", c.got.Nominal, c.want.Nominal, 1e-9)
		near.To(t, c.name+" high", c.got.High, c.want.High, 1e-9)
	}
}

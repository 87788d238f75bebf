package after

import (
	"testing"

	"bench/internal/curing"
)

// TestCurveLabels: what the lowest row is labelled with is the weight of the point
// that stands in it.
func TestCurveLabels(t *testing.T) {
	for name, c := range map[string]struct{ part, low float64 }{
		"dried":      {111.0 / 117, 111.0 / 117},
		"not at all": {1, 0.995}, // Rows need some room between them.
	} {
		p := newPlot(curing.Curing{}, nil, []curing.Point{{Part: 1}, {Days: 14, Part: c.part}}, 40, 6)
		if p.low != c.low || p.high != 1 {
			t.Errorf("%s: %v to %v", name, p.low, p.high)
		}
		if _, y, ok := p.at(14, c.low); !ok || y != p.h*dotsDown-1 {
			t.Errorf("%s: the label's weight stands at dot %d of %d", name, y, p.h*dotsDown)
		}
	}
}

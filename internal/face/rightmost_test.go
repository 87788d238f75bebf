package face

import (
	"testing"

	"bench/internal/scene"
)

// TestRightmost: a leader touches the outline it belongs to, not its box.
func TestRightmost(t *testing.T) {
	vee := []scene.Point{{X: 0, Y: 10}, {X: 5, Y: 0}, {X: 10, Y: 10}, {X: 5, Y: 4}}
	for y, want := range map[float64]float64{5: 7.5, 2: 6, 8: 9} {
		if got := rightmost(vee, y); got < want-1e-9 || got > want+1e-9 {
			t.Errorf("at height %g it ends at %g, not %g", y, got, want)
		}
	}
}

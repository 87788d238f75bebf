package work

import (
	"testing"

	"bench/internal/quantity"
)

// TestPart: 4 g of 5 are 80 per cent of a cup, by hand; of one that holds no more than is
// wanted everything goes in.
func TestPart(t *testing.T) {
	cup := Task{Do: Weigh, Target: 4 * g, FromCup: true, Wetted: true}
	for inCup, want := range map[quantity.Mass]int{5: 80, 4: 100, 3: 100, 0: 100} {
		cup.SoFar = g * inCup
		if got := cup.Part(); got != want {
			t.Errorf("%d × g in the cup: %d %%, want %d", inCup, got, want)
		}
	}
	cup.SoFar, cup.Tare = 5*g, 9*g
	if net, untared := cup.Net(10 * g); untared {
		t.Errorf("with oil in the cup 10 g is no reading of 4 g poured out of 5, and was taken for %v", net)
	}
}

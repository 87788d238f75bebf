package scent_test

import (
	"math"
	"testing"

	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/scent"
)

// TestAmounts: 1000 g of batter with 700 g of oils, worked by hand. A bar that lost 15 %
// holds share x/(0.85·(1000 + Σx)) of a scent, and a blend obeys Σ(share/limit) ≤ 1
// (common practice, no source; the limits are invented).
func TestAmounts(t *testing.T) {
	two := []recipe.Scent{
		{Material: "rope", Rate: 3 * quantity.Percent, Of: recipe.OfOils},
		{Material: "tar", Rate: quantity.Percent, Of: recipe.OfOils},
	}
	for _, c := range []struct {
		name      string
		rope, tar quantity.Ratio // rope and tar are their limits; zero is none.
		want      [2]float64
	}{
		{"no limits", 0, 0, [2]float64{21, 7}},
		{"far from them", 10 * quantity.Percent, 10 * quantity.Percent, [2]float64{21, 7}},
		// x = 0.02·0.85·(1007 + x): the tar is in the bar, too.
		{"one over", 2 * quantity.Percent, 0, [2]float64{0.017 * 1007 / 0.983, 7}},
		// Shares of 2.403 % and 0.801 % use 80.1 % + 40.05 % = 120.15 % of theirs. With k of
		// both: k·(21/0.03 + 7/0.02) = 0.85·(1000 + 28k), so k = 850/1026.2.
		{"together", 3 * quantity.Percent, 2 * quantity.Percent, [2]float64{21 * 850 / 1026.2, 7 * 850 / 1026.2}},
	} {
		control := recipe.Control{Materials: []recipe.Material{{Name: "rope", Limit: c.rope}, {Name: "tar", Limit: c.tar}}}
		l := recipe.Layer{Scents: two}
		got, most := scent.Amounts(control, l, 700, 1000)
		masses := make([]quantity.Mass, len(got))
		for i := range got {
			masses[i] = quantity.FromGrams(got[i])
			if math.Abs(got[i]-c.want[i]) > 0.0011 || got[i] > most[i] {
				t.Errorf("%s: %.4f g of %s (at most %.4f g), want %.4f g", c.name, got[i], two[i].Material, most[i], c.want[i])
			}
		}
		if x, over := scent.Over(control, l, masses, 1000*quantity.Gram+masses[0]+masses[1], 0); over {
			t.Errorf("%s: over its limit: %+v", c.name, x)
		}
	}
}

package steps_test

import (
	"strings"
	"testing"

	"bench/internal/quantity"
	"bench/internal/recipe"
)

// TestTooSmallIsPassedOver: no vessel that is too small is planned while a larger one of
// its kind is free, in a batch that begins now; one of before keeps its vessels.
func TestTooSmallIsPassedOver(t *testing.T) {
	for _, kind := range []recipe.VesselKind{recipe.Pot, recipe.LyeJug, recipe.Jug} {
		c := harbour()
		for i := range c.Vessels {
			if v := &c.Vessels[i]; v.Kind == kind {
				v.Brim = 200 * quantity.Millilitre
			}
		}
		if words := begin(c).plan().Warnings; !strings.Contains(strings.Join(words, "\n"), "take a larger one") {
			t.Fatalf("%s: nothing is too small: %q", kind, words)
		}
		for _, name := range []string{"large one", "large two", "large three"} {
			c.Vessels = append(c.Vessels, recipe.Vessel{Name: name, Kind: kind, Tare: 300 * g, Brim: 6000 * quantity.Millilitre})
		}
		if words := begin(c).plan().Warnings; len(words) > 0 {
			t.Errorf("%s: %q", kind, words)
		}
		c.PlanVersion = 3
		if words := begin(c).plan().Warnings; len(words) == 0 {
			t.Errorf("%s: a batch of before has other vessels now", kind)
		}
	}
}

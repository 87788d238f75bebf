package steps_test

import (
	"strings"
	"testing"

	"bench/internal/batch"
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

// TestWipedAndNamed: alkali that comes out again goes into a cup that is wiped and dry, one
// that the workshop lacks too; and what stirs scents in names the cups that they wait in.
func TestWipedAndNamed(t *testing.T) {
	c := harbour()
	c.Vessels = c.Vessels[:8] // The alkali cup is the only one.
	c.Materials = append(c.Materials, recipe.Material{Name: "brine", Kind: recipe.AdditiveMaterial})
	c.Recipe.Batters[0].Additives = []recipe.Additive{{Material: "brine", Rate: quantity.Percent, In: recipe.InLyeWater}}
	b := begin(c)
	b.workTo(t, "sea/sodium hydroxide")
	task := b.task(t, "sea/sodium hydroxide")
	b.typed(t, "sea/sodium hydroxide", (task.Target + g/2).At(task.Reads))
	b.decide(t, "sea/sodium hydroxide", batch.TakeOut)
	found := false
	for _, st := range b.plan().Stages {
		for _, task := range st.Tasks {
			if found = found || task.Out; task.Out && !strings.Contains(task.Hint, "out and dry it first: brine was in it") {
				t.Errorf("%s into %s: %q", task.ID, task.Vessel, task.Hint)
			}
		}
	}
	if in := b.task(t, "sea/sea/scent in"); !found || !strings.Contains(in.Hint, "Out of another cup (no. 2)") {
		t.Errorf("taken out: %v; %q", found, in.Hint)
	}
}

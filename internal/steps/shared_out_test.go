package steps_test

import (
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/sample"
)

// TestTooLateForAllOfIt: an additive or a scent that was weighed short can be brought in
// until the batter is shared out. After that nobody is asked to stir it into a pot that is
// half empty: to go on without it is the only way.
func TestTooLateForAllOfIt(t *testing.T) {
	c := harbour()
	c.Recipe.Batters[0].Additives = []recipe.Additive{{Material: "sodium lactate", Rate: 2 * quantity.Percent, In: recipe.InBatter}}
	c.Materials = append(c.Materials, recipe.Material{Name: "sodium lactate", Kind: recipe.AdditiveMaterial})
	for id, typed := range map[string]string{"sea/sodium lactate": "20", "sea/sea/harbour rope": "32"} {
		b := begin(c)
		b.workTo(t, id)
		b.typed(t, id, typed)
		b.workTo(t, "sea/sea/loaf 1")
		early, _ := deviationOf(b.plan(), id)
		if got := offered(b.plan().Ways(early)); !strings.Contains(got, "add the missing*") {
			t.Errorf("%s before the split: %s", id, got)
		}
		b.asked(t, "sea/sea/loaf 1")
		late, ok := deviationOf(b.plan(), id)
		if got := offered(b.plan().Ways(late)); !ok || got != "carry on*" {
			t.Errorf("%s after it: %s", id, got)
		}
		if title := b.plan().Ways(late)[0].Title; !strings.Contains(title, "shared out") {
			t.Error(title)
		}
		b.decide(t, id, batch.CarryOn)
		if err := b.work(never); err != nil {
			t.Error(err)
		}
		if _, _, ok := b.plan().Task(id + "/missing"); ok || len(b.plan().Deviations) > 0 {
			t.Errorf("%s: it is asked for all the same, or %+v", id, b.plan().Deviations)
		}
	}
}

// TestTooLateInASharedPot: what feeds several layers is shared out by its first part.
func TestTooLateInASharedPot(t *testing.T) {
	b := begin(sharedPot(t))
	b.workTo(t, "tide/sodium lactate")
	b.typed(t, "tide/sodium lactate", "5")
	b.workTo(t, "tide/low water/part")
	for shared, want := range map[bool]string{false: "add the missing", true: "carry on*"} {
		s := *b
		if shared {
			s.asked(t, "tide/low water/part")
		}
		d, _ := deviationOf(s.plan(), "tide/sodium lactate")
		if got := offered(s.plan().Ways(d)); !strings.Contains(got, want) || shared && got != want {
			t.Errorf("shared %v: %s", shared, got)
		}
	}
}

// sharedPot is the tide, with an additive in its batter.
func sharedPot(t *testing.T) recipe.Control {
	t.Helper()
	c := sample.Control(t, "tide-lines.yaml", 3)
	c.Recipe.Batters[0].Additives = []recipe.Additive{{Material: "sodium lactate", Rate: 2 * quantity.Percent, In: recipe.InBatter}}
	return c
}

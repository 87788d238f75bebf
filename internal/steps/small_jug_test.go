package steps_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/uses"
)

// withVessels is oliveOver in a workshop that has more vessels than the harbour's.
func withVessels(t *testing.T, more ...recipe.Vessel) *bencher {
	t.Helper()
	c := harbour()
	c.Vessels = append(c.Vessels, more...)
	b := begin(c)
	b.workTo(t, "sea/olive")
	b.typed(t, "sea/olive", "604.1")
	b.decide(t, "sea/olive", batch.InProportion)
	return b
}

// TestVesselOfTheSmallSolution: it is made in a vessel of the workshop that nothing else of
// the batch needs, a lye jug before another, with its tare; one whose brim is known holds
// twice what goes in (common practice, no source). Where there is none, one is asked for.
func TestVesselOfTheSmallSolution(t *testing.T) {
	b := withVessels(t)
	need := (b.task(t, "sea/water/top-up").Target + b.task(t, "sea/sodium hydroxide/top-up").Target).Grams()
	holds := func(ml float64) quantity.Volume { return quantity.FromMillilitres(ml) }
	lyeJug := func(brim quantity.Volume) recipe.Vessel {
		return recipe.Vessel{Name: "lye jug 3", Kind: recipe.LyeJug, Tare: 207 * g, Brim: brim}
	}
	jug := recipe.Vessel{Name: "jug 4", Kind: recipe.Jug, Tare: 118 * g}
	for name, c := range map[string]struct {
		more []recipe.Vessel
		want string
		tare quantity.Mass
	}{
		"none to spare":     {nil, "another lye jug (no. 3)", 0},
		"a lye jug":         {[]recipe.Vessel{jug, lyeJug(0)}, "lye jug 3", 207 * g},
		"a jug":             {[]recipe.Vessel{jug}, "jug 4", 118 * g},
		"large enough":      {[]recipe.Vessel{jug, lyeJug(holds(2*need + 1))}, "lye jug 3", 207 * g},
		"too small":         {[]recipe.Vessel{jug, lyeJug(holds(2*need - 1))}, "jug 4", 118 * g},
		"too small, no jug": {[]recipe.Vessel{lyeJug(holds(2*need - 1))}, "another lye jug (no. 4)", 0},
	} {
		b := withVessels(t, c.more...)
		water, alkali := b.task(t, "sea/water/top-up"), b.task(t, "sea/sodium hydroxide/top-up")
		if water.Vessel != c.want || water.Tare != c.tare || water.TareKnown != (c.tare > 0) || alkali.Into != c.want {
			t.Errorf("%s: %s of %v, alkali into %s; want %s", name, water.Vessel, water.Tare, alkali.Into, c.want)
		}
		asks := fmt.Sprintf("take a heat-proof one of %.0f ml or more", math.Ceil(2*need))
		if strings.Contains(water.Hint, asks) != (c.tare == 0) {
			t.Errorf("%s: %q", name, water.Hint)
		}
		for _, st := range b.plan().Stages {
			for _, task := range st.Tasks {
				if task.ID != water.ID && task.Vessel == water.Vessel {
					t.Errorf("%s: %s is weighed in %s, too", name, task.ID, water.Vessel)
				}
			}
		}
	}
}

// TestSmallSolutionIsInItsVessel: from its water on until it is poured into the lye jug,
// another batch finds the vessel full, and dry alkali in its cup; and a second batter's
// small solution goes elsewhere.
func TestSmallSolutionIsInItsVessel(t *testing.T) {
	b := withVessels(t, recipe.Vessel{Name: "lye jug 3", Kind: recipe.LyeJug, Tare: 207 * g}, recipe.Vessel{Name: "lye jug 4", Kind: recipe.LyeJug, Tare: 208 * g})
	full := func(vessel string) bool {
		return slices.ContainsFunc(b.plan().Occupies("A"), func(o uses.Occupied) bool { return o.Vessel == vessel })
	}
	if full("lye jug 3") {
		t.Error("it is full before anything is in it")
	}
	b.asked(t, "sea/water/top-up")
	b.asked(t, "sea/sodium hydroxide/top-up")
	if !full("lye jug 3") || !full("alkali cup") {
		t.Errorf("%+v", b.plan().Occupies("A"))
	}
	before := b.state
	b.asked(t, "sea/dissolve more")
	if full("lye jug 3") || full("alkali cup") {
		t.Errorf("it is full when it is poured: %+v", b.plan().Occupies("A"))
	}
	for state, want := range map[*batch.State]string{&before: "lye jug 4", &b.state: "lye jug 3"} {
		other := &bencher{state: *state, now: b.now}
		olive := other.task(t, "dusk/olive")
		other.put(batch.Weighed{Task: olive.ID, Material: olive.Material, Target: olive.Target, Mass: olive.Target + 30*g, How: batch.Typed, Reads: olive.Reads})
		other.decide(t, olive.ID, batch.InProportion)
		if got := other.task(t, "dusk/water/top-up").Vessel; got != want {
			t.Errorf("dusk's in %s, want %s", got, want)
		}
	}
}

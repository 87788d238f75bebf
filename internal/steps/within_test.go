package steps_test

import (
	"slices"
	"testing"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/steps"
)

// TestJudgedAsItWasAsked: the water was over by more than it might be when it was
// weighed, and still is once more alkali asks for more water; where a fact of before
// does not tell, it is held to the plan as it is now.
func TestJudgedAsItWasAsked(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/water")
	asked := b.task(t, "sea/water")
	over := (asked.Target + asked.Tolerance + g).RoundTo(asked.Reads)
	b.typed(t, "sea/water", over.At(asked.Reads))
	off := func(p steps.Plan) bool {
		return slices.ContainsFunc(p.Deviations, func(d steps.Deviation) bool { return d.Task == "sea/water" })
	}
	if !off(b.plan()) {
		t.Fatal("a gram beyond the tolerance is not off")
	}
	alkali := b.task(t, "sea/sodium hydroxide")
	b.put(batch.Weighed{Task: alkali.ID, Material: alkali.Material, Target: alkali.Target, Mass: alkali.Target * 3 / 2, How: batch.Typed, Reads: alkali.Reads})
	if now := b.task(t, "sea/water"); now.Tolerance != asked.Tolerance || !off(b.plan()) {
		t.Errorf("± %v when it was weighed, ± %v now; off: %v", asked.Tolerance, now.Tolerance, off(b.plan()))
	}

	old := batch.State{}
	for _, e := range b.state.Entries {
		if w, ok := e.Fact.(batch.Weighed); ok {
			w.Within = 0
			e.Fact = w
		}
		old = old.Apply(e)
	}
	p := steps.Of(old)
	now, _, _ := p.Task("sea/water")
	if want := asked.Tolerance * 3 / 2; (now.Tolerance-want).Abs() > quantity.Gram/2 || off(p) {
		t.Errorf("a fact of before: ± %v, by hand ± %v; off: %v", now.Tolerance, want, off(p))
	}
}

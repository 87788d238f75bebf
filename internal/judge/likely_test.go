package judge_test

import (
	"testing"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/sample"
	"bench/internal/steps"
)

// TestLikelyLook: the look that is offered first goes with the temperature that was
// typed (common practice, no source); without one it is the first.
func TestLikelyLook(t *testing.T) {
	list := judge.Choices(steps.Of(batch.State{Control: sample.Control(t, "lighthouse-at-dusk.yaml", 0)}), "gel/1 h", "")
	for typed, want := range map[string]batch.GelLook{
		"": batch.NoGel, "38": batch.NoGel, "54.9": batch.NoGel, "61": batch.Gelling, "142 F": batch.Gelling, "70": batch.FullGel, "90": batch.Rising, "warm": batch.NoGel,
	} {
		if got := list[judge.Likely(list, typed)].Fact.(batch.GelLooked).Look; got != want {
			t.Errorf("%q: %s is offered first, want %s", typed, got, want)
		}
	}
	if got := judge.Likely(nil, "61"); got != 0 {
		t.Errorf("of no answers %d", got)
	}
}

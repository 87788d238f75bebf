package paper_test

import (
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/paper"
	"bench/internal/quantity"
	"bench/internal/sample"
)

// TestSeveralContainersAddUp: what came in two goes is no shortfall in the record.
func TestSeveralContainersAddUp(t *testing.T) {
	b := sample.Begin(sample.Control(t, "lighthouse-at-dusk.yaml", 3))
	b.WorkTo(t, "sea/castor")
	task, _, _ := b.Plan().Task("sea/castor")
	weighed := func(m quantity.Mass, more bool) {
		b.Put(batch.Weighed{Task: task.ID, Material: task.Material, Target: task.Target, Mass: m, How: batch.Typed, Reads: task.Reads, More: more})
	}
	weighed(20*quantity.Gram, true)
	weighed(task.Target-20*quantity.Gram, false)
	text := paper.RecordOf("260302A", b.State, time.UTC).Text()
	for _, want := range []string{"1 of 2, so far 20.0", "2 of 2, so far " + task.Target.At(task.Reads), "(" + task.Target.At(task.Reads) + " g in 2 goes)"} {
		if !strings.Contains(text, want) {
			t.Errorf("the record does not say %q", want)
		}
	}
}

package paper_test

import (
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/paper"
	"bench/internal/quantity"
	"bench/internal/sample"
)

// TestRecordSaysTheToleranceOfItsTime: water stands in the record with what it might be
// off by when it was weighed, whatever the plan made of it since.
func TestRecordSaysTheToleranceOfItsTime(t *testing.T) {
	b := sample.Begin(sample.Control(t, "lighthouse-at-dusk.yaml", 3))
	b.WorkTo(t, "sea/water")
	water, _, _ := b.Plan().Task("sea/water")
	b.WorkTo(t, "sea/sodium hydroxide")
	alkali, _, _ := b.Plan().Task("sea/sodium hydroxide")
	b.Put(batch.Weighed{Task: alkali.ID, Material: alkali.Material, Target: alkali.Target, Mass: alkali.Target * 3 / 2, How: batch.Typed, Reads: alkali.Reads})
	if now, _, _ := b.Plan().Task("sea/water"); now.Tolerance != water.Tolerance {
		t.Errorf("± %v at the bench, then ± %v", water.Tolerance, now.Tolerance)
	}
	found := false
	for _, u := range paper.RecordOf("260302A", b.State, time.UTC).Materials {
		if u.Material == water.Material {
			found = true
			if got := quantity.Mass(u.Within); got != water.Tolerance {
				t.Errorf("± %v at the bench, ± %v in the record", water.Tolerance, got)
			}
		}
	}
	if !found {
		t.Error("the water is not in the record")
	}
}

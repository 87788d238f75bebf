package paper_test

import (
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/paper"
	"bench/internal/quantity"
	"bench/internal/sample"
	"bench/internal/steps"
	"bench/internal/timer"
)

// TestPortionThatWasOffStandsInTheRecord: with what followed from it; one within
// its tolerance does not.
func TestPortionThatWasOffStandsInTheRecord(t *testing.T) {
	for off, want := range map[quantity.Mass]bool{19900: true, 1900: false, -19900: true} {
		s := batch.State{}
		put := func(f batch.Fact) {
			s = s.Apply(batch.Entry{Seq: len(s.Entries) + 1, At: timer.Moment{Wall: time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC)}, Fact: f})
		}
		put(batch.Started{Control: sample.Control(t, "lighthouse-at-dusk.yaml", 2)})
		first, _, _ := steps.Of(s).Task("dusk/sky/loaf 1")
		put(batch.Weighed{
			Task: first.ID, Material: first.Material, Target: first.Target, Mass: first.Target + off, How: batch.Typed,
			Scale: first.Scale, Reads: first.Reads, Vessel: first.Vessel, Tare: first.Tare,
		})
		p := steps.Of(s)
		second, _, _ := p.Task("dusk/sky/loaf 2")
		follows := "Portion for loaf 2 " + second.Target.At(second.Reads) + " g"
		said := ""
		for _, d := range paper.RecordOf("260302A", s, time.UTC).Deviations {
			said += d.Words + "\n"
		}
		if got := strings.Contains(said, "19.9 g") && strings.Contains(said, follows); got != want {
			t.Errorf("off by %s: %q", off, said)
		}
		if settled := p.Settled(); strings.Contains(settled, "no weight was off") == want {
			t.Errorf("off by %s: %q", off, settled)
		}
	}
}

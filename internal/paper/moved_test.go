package paper_test

import (
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/paper"
	"bench/internal/quantity"
	"bench/internal/sample"
	"bench/internal/say"
	"bench/internal/steps"
	"bench/internal/timer"
	"bench/internal/work"
)

// TestPortionThatWasOffStandsInTheRecord: with what followed from it; one within
// its tolerance does not.
func TestPortionThatWasOffStandsInTheRecord(t *testing.T) {
	for off, want := range map[quantity.Mass]bool{19900: true, 1900: false, -19900: true} {
		s := batch.State{}
		put := func(f batch.Fact) {
			s = s.With(f, timer.Moment{Wall: time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC)})
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
		if settled := say.Settled(p); strings.Contains(settled, "no weight was off") == want {
			t.Errorf("off by %s: %q", off, settled)
		}
	}
}

// TestRecordCountsAScentOnce: what was weighed into a cup, and then poured out of
// it, was used once; and a temperature that was read again keeps its first reading.
func TestRecordCountsAScentOnce(t *testing.T) {
	s := batch.State{}
	put := func(f batch.Fact) {
		s = s.With(f, timer.Moment{Wall: time.Date(2026, 3, 2, 9, len(s.Entries), 0, 0, time.UTC)})
	}
	put(batch.Started{Control: sample.Control(t, "lighthouse-at-dusk.yaml", 2)})
	cups, poured := 0, 0
	for _, st := range steps.Of(s).Stages {
		for _, task := range st.Tasks {
			if task.Do == work.Weigh && task.Material == "evening rose" {
				put(batch.Weighed{Task: task.ID, Material: task.Material, Target: task.Target, Mass: task.Target, Reads: task.Reads, Scale: task.Scale, How: batch.AtTarget})
				if task.FromCup {
					poured++
				} else {
					cups++
				}
			}
		}
	}
	put(batch.TemperatureTaken{Task: "dusk/lye temperature", Temperature: 88 * quantity.Degree})
	put(batch.TemperatureTaken{Task: "dusk/lye temperature", Temperature: 35 * quantity.Degree})
	r := paper.RecordOf("260302A", s, time.UTC)
	count := func(list []paper.UsedJSON) (n int) {
		for _, u := range list {
			if u.Material == "evening rose" {
				n++
			}
		}
		return n
	}
	if cups == 0 || poured == 0 || count(r.Materials) != cups || count(r.Portions) != poured {
		t.Errorf("%d of %d cups among the materials, %d of %d among the portions", count(r.Materials), cups, count(r.Portions), poured)
	}
	said := ""
	for _, c := range r.Checks {
		said += c.What + " " + c.Found + "\n"
	}
	if !strings.Contains(said, "88 °C") || len(r.Checks) != 2 {
		t.Errorf("%q", said)
	}
}

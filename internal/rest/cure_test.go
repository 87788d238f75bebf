package rest_test

import (
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/curing"
	"bench/internal/quantity"
	"bench/internal/rest"
	"bench/internal/sample"
	"bench/internal/work"
)

const g = quantity.Gram

// task finds a task of what follows the pour of a batch.
func task(t *testing.T, s batch.State, id string) work.Task {
	t.Helper()
	r := rest.Rest{Control: s.Control, State: s, Loaves: []quantity.Mass{1000 * g, 1000 * g}}
	for _, stage := range r.Stages() {
		for _, task := range stage.Tasks {
			if task.ID == id {
				return task
			}
		}
	}
	t.Fatalf("there is no task %s", id)
	return work.Task{}
}

// TestCuredBarFromAllThatWasWeighed: by hand. Bars of 104 g in the mean, and
// marked ones that went from 110 + 90 to 99 + 81 g, a tenth: 93.6 g. Without
// fresh weights it is the mean of the marked ones, 90 g.
func TestCuredBarFromAllThatWasWeighed(t *testing.T) {
	s := batch.State{Control: sample.Control(t, "lighthouse-at-dusk.yaml", 2)}
	put := func(f batch.Fact) { s = s.Apply(batch.Entry{Seq: len(s.Entries) + 1, Fact: f}) }
	for bar, masses := range map[string][]quantity.Mass{"1": {110 * g, 99 * g}, "2": {90 * g, 81 * g}} {
		for _, m := range masses {
			put(batch.WeighedIn{Task: curing.BarTask(bar), Bar: bar, Mass: m, Reads: g})
		}
	}
	if got := task(t, s, rest.WeightTest).Target; got != 90*g {
		t.Errorf("%s without fresh weights", got)
	}
	put(batch.BarsWeighed{Task: "bars/loaf 1", Count: 8, Mass: 800 * g, Reads: g})
	put(batch.BarsWeighed{Task: "bars/loaf 2", Count: 8, Mass: 864 * g, Reads: g})
	if got := task(t, s, rest.WeightTest).Target; got != 93600*g/1000 {
		t.Errorf("%s", got)
	}
}

// TestCutSaysBothEnds: 8 bars of 25 mm and the 5 mm at the stop leave 15 of the
// mould's 220 mm at the other end.
func TestCutSaysBothEnds(t *testing.T) {
	s := batch.State{Control: sample.Control(t, "lighthouse-at-dusk.yaml", 2)}
	const want = "Planned 8 bars of 25 mm, ends of 5 mm at the stop and 15 mm at the other end;"
	if hint := task(t, s, curing.CutTask(1)).Hint; !strings.Contains(hint, want) {
		t.Errorf("%q", hint)
	}
}

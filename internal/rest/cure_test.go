package rest_test

import (
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/curing"
	"bench/internal/quantity"
	"bench/internal/rest"
	"bench/internal/sample"
	"bench/internal/timer"
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

// TestOverPHSaysWhatItIs: above 10.5, which is practice (bars on sale had 10.7 to 12.2: Mwanza
// and Zombe 2020, second-hand), the release says so, and what can be done besides; below 9, and
// once a test passed a week later, it does not.
func TestOverPHSaysWhatItIs(t *testing.T) {
	says := func(tests ...batch.Tested) bool {
		s := batch.State{Control: sample.Control(t, "lighthouse-at-dusk.yaml", 2)}
		for i, f := range tests {
			s = s.Apply(batch.Entry{Seq: i + 1, At: timer.Moment{Wall: poured.Wall.AddDate(0, 0, 50+7*i)}, Fact: f})
		}
		hint := task(t, s, rest.DecideID).Hint
		for _, words := range []string{"practice", "10.7 to 12.2", "cure on", "free alkali", "with the reason"} {
			if strings.Contains(hint, words) != strings.Contains(hint, "10.5") {
				t.Errorf("%q", hint)
			}
		}
		return strings.Contains(hint, "10.5")
	}
	at := func(value float64, passed bool) batch.Tested {
		return batch.Tested{Task: "test/alkali", Test: batch.PHTest, Value: value, Passed: passed}
	}
	for _, c := range []struct {
		tests []batch.Tested
		want  bool
	}{
		{nil, false},
		{[]batch.Tested{at(11.3, false)}, true},
		{[]batch.Tested{at(8.2, false)}, false},
		{[]batch.Tested{at(9.8, true)}, false},
		{[]batch.Tested{at(11.3, false), at(9.8, true)}, false},
	} {
		if says(c.tests...) != c.want {
			t.Errorf("%+v: said is %v", c.tests, !c.want)
		}
	}
}

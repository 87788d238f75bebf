package steps

import (
	"slices"
	"strings"

	"bench/internal/batch"
	"bench/internal/next"
	"bench/internal/quantity"
	"bench/internal/rest"
	"bench/internal/timer"
	"bench/internal/work"
)

// settle works out what is done, what is open and what waits for what.
func settle(stages []work.Stage, s batch.State) {
	at := make(map[string]int, len(stages))
	for i := range stages {
		st := &stages[i]
		at[st.ID] = i
		st.Done = true
		for j := range st.Tasks {
			t := &st.Tasks[j]
			if !t.Done && t.Do != work.Confirm && t.ID != rest.WholeCure { // A cut that was corrected opens the cure again.
				if d, ok := s.Done(t.ID); ok {
					t.Done, t.Skipped, t.Seq, t.At = true, d.Skipped, d.Seq, d.At
				}
			}
			st.Done = st.Done && t.Done
		}
		if !st.Done {
			st.ReadBack = ""
		}
	}
	for i := range stages {
		st := &stages[i]
		for _, before := range st.After {
			switch first, ok := at[before]; {
			case !ok || stages[first].Done || st.EachLoaf && anyDone(stages[first].Tasks):
			case st.Blocked == "":
				st.Blocked = "waits for " + stages[first].Title
			default:
				st.Blocked += ", " + stages[first].Title
			}
		}
		openTasks(st, s)
	}
}

// openTasks says of each task whether it can be done now, and why not.
func openTasks(st *work.Stage, s batch.State) {
	for j := range st.Tasks {
		t := &st.Tasks[j]
		switch {
		case t.Done:
		case s.Closed():
			t.Waits = "the batch is closed"
		case t.ID == lyeTemperatureID(st.Batter) && dissolved(s, st.Batter):
			t.Open = true // While it cools, its readings make the forecast.
		case st.Blocked != "":
			t.Waits = st.Blocked
		case st.Ordered && j > 0 && !st.Tasks[j-1].Done:
			t.Waits = "waits for: " + st.Tasks[j-1].Title
		case t.Waits != "": // It follows from the facts of its loaf.
		case t.Do == work.Confirm && !everyDone(st.Tasks[:j]):
			t.Waits = "waits for the rest of this stage"
		case st.Kind == work.Oils && strings.HasSuffix(t.ID, "/melt") && !everyDone(st.Tasks[:j]):
			t.Waits = "waits for the hard oils"
		default:
			t.Open = true
		}
	}
}

func anyDone(tasks []work.Task) bool {
	return slices.ContainsFunc(tasks, func(t work.Task) bool { return t.Done })
}

func dissolved(s batch.State, batter string) bool {
	d, ok := s.Done(DissolveID(batter))
	return ok && d.Skipped == ""
}

func everyDone(before []work.Task) bool {
	for _, t := range before {
		if !t.Done {
			return false
		}
	}
	return true
}

// Next gives the one task that is next, or false when there is nothing to do: the
// batch is finished, or waits for a timer.
func (p Plan) Next(now timer.Moment) (task string, ok bool) {
	if p.Closed {
		return "", false
	}
	return next.Among{Stages: p.Stages, Timers: p.Timers, State: p.State()}.Task(now)
}

// Finished says that every task is done.
func (p Plan) Finished() bool {
	for _, st := range p.Stages {
		if !st.Done {
			return false
		}
	}
	return len(p.Stages) > 0
}

// grams shows a mass at what its scale reads to, with the unit.
func grams(m, reads quantity.Mass) string { return m.At(reads) + " g" }

// capital starts a sentence.
func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

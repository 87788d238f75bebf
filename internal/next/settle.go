package next

import (
	"slices"
	"strings"

	"bench/internal/batch"
	"bench/internal/rest"
	"bench/internal/work"
)

// Settle works out what is done, what is open and what waits for what.
func Settle(stages []work.Stage, s batch.State) {
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

// openTasks says of each task whether it can be done now, and why not. One that comes
// open waits for no other stage.
func openTasks(st *work.Stage, s batch.State) {
	for j := range st.Tasks {
		t := &st.Tasks[j]
		early := t.Open
		t.Open = false
		switch {
		case t.Done:
		case s.Ended():
			t.Waits = "the batch is closed"
		case early:
			t.Open = true
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

func everyDone(before []work.Task) bool {
	for _, t := range before {
		if !t.Done {
			return false
		}
	}
	return true
}

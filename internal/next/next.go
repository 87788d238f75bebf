// Package next says what of a plan is done, what is open and waits for what, and which
// task is the one to do now.
//
// The rule: one task is next, or none is because everything waits for a timer. While
// something sets, the work that can be done meanwhile comes first, until it is time to
// look.
package next

import (
	"slices"
	"strings"

	"bench/internal/batch"
	"bench/internal/timer"
	"bench/internal/work"
)

// Among is what there is to do, the timers that say when, and the facts so far.
type Among struct {
	Stages []work.Stage
	Timers []timer.Timer
	State  batch.State
}

// Task gives the one task that is next, or false when there is nothing to do: all is
// done, or waits for a timer.
func (a Among) Task(now timer.Moment) (id string, ok bool) {
	for i, st := range a.Stages {
		if st.Done || st.Blocked != "" {
			continue
		}
		if (st.Kind == work.HoldEmbeds || st.Kind == work.HoldLayer) && !a.lookIsDue(now) {
			if id, ok := firstMeanwhile(a.Stages[i+1:]); ok {
				return id, true
			}
		}
		if timed(st.Kind) {
			id, ok, on := a.inTime(st, now)
			if on {
				continue
			}
			return id, ok
		}
		if id, ok := firstOpen(st); ok {
			return id, true
		}
	}
	return "", false
}

func firstMeanwhile(stages []work.Stage) (string, bool) {
	for _, st := range stages {
		if st.Meanwhile && !st.Done && st.Blocked == "" {
			if id, ok := firstOpen(st); ok {
				return id, true
			}
		}
	}
	return "", false
}

func firstOpen(st work.Stage) (string, bool) {
	i := slices.IndexFunc(st.Tasks, func(t work.Task) bool { return t.Open })
	if i < 0 {
		return "", false
	}
	return st.Tasks[i].ID, true
}

func (a Among) lookIsDue(now timer.Moment) bool {
	return slices.ContainsFunc(a.Timers, func(t timer.Timer) bool {
		return strings.HasPrefix(t.ID, work.LookTimer) && t.State(now) == timer.Due
	})
}

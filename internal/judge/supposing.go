package judge

import (
	"cmp"
	"strings"

	"bench/internal/batch"
	"bench/internal/steps"
	"bench/internal/timer"
	"bench/internal/work"
)

// Supposing gives the plan as it would be if a task were answered so: what is
// being typed can be followed to its end before it is said. False is for an
// answer that cannot be given.
func Supposing(p steps.Plan, task string, a Answer, now timer.Moment) (steps.Plan, bool) {
	f, err := Fact(p, task, a)
	if err != nil || Allows(p, f, now) != nil {
		return p, false
	}
	return p.With(f, now), true
}

// Following gives the task that would be next if this one were ticked. Its title
// names the vessel, and the batter or layer where that is another.
func Following(p steps.Plan, task string, now timer.Moment) (work.Task, bool) {
	after, ok := Supposing(p, task, Answer{How: batch.AtTarget}, now)
	if !ok {
		return work.Task{}, false
	}
	next, ok := after.Next(now)
	if !ok {
		return work.Task{}, false
	}
	t, st, ok := after.Task(next)
	_, from, _ := p.Task(task)
	t.Title = inFull(t, st, from)
	return t, ok
}

// inFull says whose task it is, for one that stands away from its stage.
func inFull(t work.Task, st, from work.Stage) string {
	title := t.Title
	if t.Vessel != "" && !strings.Contains(title, t.Vessel) {
		if short := strings.Replace(title, "the lye jug", t.Vessel, 1); short != title {
			title = short
		} else {
			title += " (" + t.Vessel + ")"
		}
	}
	of := cmp.Or(st.Layer, st.Batter)
	if of != "" && (st.Batter != from.Batter || st.Layer != from.Layer) && !strings.Contains(title, of) {
		title = of + ": " + title
	}
	return title
}

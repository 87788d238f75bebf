package judge

import (
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

// Following gives the task that would be next if this one were ticked.
func Following(p steps.Plan, task string, now timer.Moment) (work.Task, bool) {
	after, ok := Supposing(p, task, Answer{How: batch.AtTarget}, now)
	if !ok {
		return work.Task{}, false
	}
	next, ok := after.Next(now)
	if !ok {
		return work.Task{}, false
	}
	t, _, ok := after.Task(next)
	return t, ok
}

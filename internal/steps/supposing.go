package steps

import (
	"bench/internal/batch"
	"bench/internal/timer"
)

// Supposing gives the plan as it would be if a task were answered so: what is
// being typed can be followed to its end before it is said. False is for an
// answer that cannot be given.
func (p Plan) Supposing(task string, a Answer, now timer.Moment) (Plan, bool) {
	f, err := p.Answer(task, a)
	if err != nil || p.Allows(f, now) != nil {
		return p, false
	}
	return p.With(f, now), true
}

// Following gives the task that would be next if this one were ticked.
func (p Plan) Following(task string, now timer.Moment) (Task, bool) {
	after, ok := p.Supposing(task, Answer{How: batch.AtTarget}, now)
	if !ok {
		return Task{}, false
	}
	next, ok := after.Next(now)
	if !ok {
		return Task{}, false
	}
	t, _, ok := after.Task(next)
	return t, ok
}

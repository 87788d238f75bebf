package reply

import (
	"cmp"
	"slices"

	"bench/internal/front"
	"bench/internal/steps"
	"bench/internal/timer"
	"bench/internal/work"
)

// NoWay is said where no way on is left.
const NoWay = "Nothing that can still be done brings the superfat back to what the recipe states. The work goes on; hold the bars until pH or free alkali has been tested."

// Newcomer is said where no batch was ever begun.
const Newcomer = "a first batch without lye, that leaves no trace: bench --practice"

// MaxLoaves is the most that a batch is planned for.
const MaxLoaves = 99

// WhereAt says what is next, or that all is done.
func WhereAt(b front.UnderWay, now timer.Moment) string {
	task, ok := b.Plan.Next(now)
	if !ok {
		return cmp.Or(ComesNext(b, now), "nothing left to do now")
	}
	next, stage, _ := b.Plan.Task(task)
	return stage.Title + ": " + next.Title
}

// ComesNext says which day comes next in a batch that rests, or "".
func ComesNext(b front.UnderWay, now timer.Moment) string {
	for _, d := range b.Plan.Ahead(now) {
		if d.At.After(now.Wall) {
			return d.Label + " in " + timer.Words(d.At.Sub(now.Wall))
		}
	}
	return ""
}

// OpenAfter gives the task itself while it is open (another container follows),
// or the next open one of its stage, or "" to go on with what is next.
func OpenAfter(p steps.Plan, task string) string {
	t, stage, _ := p.Task(task)
	if t.Open {
		return task
	}
	at := slices.IndexFunc(stage.Tasks, func(t work.Task) bool { return t.ID == task })
	for i := range stage.Tasks {
		if t := stage.Tasks[(at+1+i)%len(stage.Tasks)]; t.Open {
			return t.ID
		}
	}
	return ""
}

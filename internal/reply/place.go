package reply

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"bench/internal/front"
	"bench/internal/steps"
	"bench/internal/timer"
	"bench/internal/work"
)

// NoWay is said where no way on is left.
const NoWay = "Nothing that can still be done brings the superfat back to what the recipe states. The work goes on; hold the bars until pH or free alkali has been tested."

// Newcomer is said where no batch was ever begun.
const Newcomer = "to try it without lye, leaving no trace: bench --practice"

// MaxLoaves is the most that a batch is planned for.
const MaxLoaves = 99

// WhereAt says what is next, or that all is done.
func WhereAt(b front.UnderWay, now timer.Moment) string {
	task, ok := b.Plan.Next(now)
	if words := StillFull(b.Plan); words != "" {
		return "ended; " + words
	}
	if !ok {
		return cmp.Or(ComesNext(b, now), "nothing left to do now")
	}
	next, stage, _ := b.Plan.Task(task)
	return stage.Title + ": " + next.Title
}

// ComesNext says what comes next in a batch that rests, a day or a timer, or "".
func ComesNext(b front.UnderWay, now timer.Moment) string {
	var label string
	var at time.Time
	sooner := func(l string, t time.Time) {
		if t.After(now.Wall) && (label == "" || t.Before(at)) {
			label, at = l, t
		}
	}
	for _, d := range b.Plan.Ahead(now) {
		sooner(d.Label, d.At)
	}
	for _, t := range b.Plan.Timers {
		if s := t.State(now); !t.CountsUp() && (s == timer.Running || s == timer.PutOff) {
			short, _, _ := strings.Cut(t.Label, ":")
			sooner(short, t.AsksAt(now))
		}
	}
	if label == "" {
		return ""
	}
	return label + " in " + timer.Words(at.Sub(now.Wall))
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

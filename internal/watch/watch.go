// Package watch gathers the timers of all batches, and hears when they ask for somebody.
//
// The rule: what asks comes before what only runs, and one alarm is foremost, the same
// on every front.
package watch

import (
	"cmp"
	"slices"
	"time"

	"bench/internal/front"
	"bench/internal/timer"
)

// Board is the batches whose timers run.
type Board struct {
	Batches []front.UnderWay
	Bench   string // Bench is the batch that is being worked on.
	Along   bool   // Along says that another bench writes that batch.
	Asked   Name   // Asked is the timer that a question is open about, if there is one.
}

// Name tells the timers of all batches apart.
type Name struct{ Code, Timer string }

// Timer is a timer with the batch that it belongs to.
type Timer struct {
	timer.Timer
	Code   string
	Recipe string
	There  bool // There says that another bench answers it.
}

// Timers gives what runs in all batches: what is due first, by priority, that of
// the batch on the bench before others and the latest one foremost; then what
// falls due next, then what counts up. What is only listed covers nothing that
// the hands are at.
func (b Board) Timers(now timer.Moment) []Timer {
	var list []Timer
	for _, each := range b.Batches {
		if each.Plan.Closed {
			continue
		}
		for _, t := range each.Plan.Timers {
			if t.State(now) != timer.Acknowledged {
				t.Priority = t.PriorityAt(now)
				list = append(list, Timer{t, each.Code, each.Plan.Recipe, each.HeldBy != "" || b.Along && each.Code == b.Bench})
			}
		}
	}
	slices.SortStableFunc(list, func(one, two Timer) int {
		return cmp.Or(b.rank(one, now)-b.rank(two, now),
			cmp.Compare(one.Left(now).Truncate(time.Second), two.Left(now).Truncate(time.Second)))
	})
	return list
}

// before is how long before a timer asks a practice stops, so that it is seen to ask.
const before = 10 * time.Second

// UntilNext gives how long it is until just before the next timer asks; false is that
// none will, or only so soon that one can wait.
func (b Board) UntilNext(now timer.Moment) (time.Duration, bool) {
	next, found := time.Duration(0), false
	for _, t := range b.Timers(now) {
		if left := t.AsksAt(now).Sub(now.Wall) - before; !t.CountsUp() && left > 0 && (!found || left < next) {
			next, found = left, true
		}
	}
	return next, found
}

// near is how soon a timer asks that comes before what is only listed.
const near = 2 * time.Hour

// rank sorts what asks for something before what only runs.
func (b Board) rank(t Timer, now timer.Moment) int {
	due, here := t.State(now) == timer.Due, t.Code == b.Bench
	switch {
	case b.Asked == Name{t.Code, t.ID}:
		return 0 // A question that is open stays in sight.
	case due && t.Priority == timer.ActNow && here:
		return 1
	case due && t.Priority == timer.ActNow:
		return 2
	case due && t.Priority == timer.Soon && here:
		return 3
	case due && t.Priority == timer.Soon:
		return 4
	case due && here:
		return 6
	case due:
		return 9
	case t.CountsUp():
		return 8
	case t.Left(now) < near:
		return 5
	default:
		return 7
	}
}

// Words say an alarm outside the window: what, and of which batch.
func (t Timer) Words() (what, of string) { return t.Label, t.Recipe + ", batch " + t.Code }

// Delays gives for how long any alarm may be put off. What wants hours has an
// answer that says why, such as too soft.
func Delays() [3]time.Duration {
	return [3]time.Duration{5 * time.Minute, 10 * time.Minute, 30 * time.Minute}
}

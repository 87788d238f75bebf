package rest

import (
	"fmt"
	"strings"
	"time"

	"bench/internal/curing"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/timer"
)

// mostWeighIns keeps a list of days within reason, whatever the recipe says.
const mostWeighIns = 60

// Date is a day of a batch that lies ahead. One that is not known follows from
// others that have not come yet.
type Date struct {
	ID    string
	Label string
	At    time.Time
	Known bool
}

// Ahead gives the days that lie ahead of a batch from its last pour on, in
// order: unmould, cut, weigh-ins, ready, a second test. What has not begun is reckoned from
// when the step before it is due.
func (r Rest) Ahead(timers []timer.Timer, now timer.Moment) []Date {
	if r.Poured.IsZero() {
		return nil
	}
	var list []Date
	due := map[string]timer.Timer{}
	for _, t := range timers {
		due[t.ID] = t
		if last, runs := due[CutDue]; strings.HasPrefix(t.ID, CutDue+"/") && (!runs || t.AsksAt(now).After(last.AsksAt(now))) {
			due[CutDue] = t // A loaf that was too soft is the last to be cut.
		}
	}
	step := func(id, label string, from time.Time, after time.Duration) time.Time {
		if t, runs := due[id]; runs {
			at := t.AsksAt(now)
			list = append(list, Date{id, label, at, true})
			return at
		}
		at := from.Add(after)
		list = append(list, Date{id, label, at, false})
		return at
	}
	c := curing.Of(r.State)
	rules, cut := c.Rules, c.Cut.Wall
	if cut.IsZero() {
		out := r.Poured.Wall.Add(r.Control.Recipe.Unmould)
		if at, done := r.lastUnmoulded(); done {
			out = at.Wall
		} else {
			for _, l := range r.lots(UnmouldDue, r.inMould()) {
				out = later(out, step(l.id, "unmould "+r.someLoaves(l.loaves), r.Poured.Wall, r.Control.Recipe.Unmould))
			}
		}
		cut = step(CutDue, "cut "+quantity.Count(r.Control.Loaves, "loaf", "loaves"), out, cutWithin)
	}
	if !r.cured() {
		list = r.aheadInCure(list, now, cut, rules, due)
	}
	for _, t := range r.retestTimers() {
		if t, runs := due[t.ID]; runs {
			list = append(list, Date{t.ID, t.Label, t.AsksAt(now), true})
		}
	}
	return list
}

func later(a, b time.Time) time.Time {
	if b.After(a) {
		return b
	}
	return a
}

// aheadInCure adds the weigh-ins up to the day on which the bars are ready.
func (r Rest) aheadInCure(list []Date, now timer.Moment, cut time.Time, rules recipe.Cure, due map[string]timer.Timer) []Date {
	ready := cut.Add(rules.Usual)
	if t, runs := due[ReadyDue]; runs {
		ready = t.AsksAt(now)
	}
	mark, rounds, since, weighed := curing.Of(r.State).NextBar()
	at, n := cut, 0
	if weighed {
		at, n = since.Wall, rounds
	}
	label := "weigh a marked bar"
	if weighed {
		label = "weigh bar " + mark
	}
	for known := weighed; n < mostWeighIns && rules.WeighEvery > 0; known = false {
		at, n = at.Add(rules.WeighEvery), n+1
		if at.After(ready) && !known {
			break
		}
		list = append(list, Date{fmt.Sprintf("%s%d", WeighDue, n), label, at, known})
	}
	return append(list, Date{ReadyDue, fmt.Sprintf("%s: cure over, test and release", r.Control.Recipe.Name), ready, due[ReadyDue].ID != ""})
}

package next

import (
	"fmt"
	"slices"
	"strings"

	"bench/internal/batch"
	"bench/internal/curing"
	"bench/internal/rest"
	"bench/internal/timer"
	"bench/internal/work"
)

// timed says that a stage's tasks are next when their timers say so, and not
// only because the one before is done.
func timed(k work.Kind) bool { return k == work.GelStage || k == work.Unmould || k == work.CureStage }

// inTime gives the task of a timed stage that is next. On says that the
// stage does not keep what comes after it waiting.
func (a Among) inTime(st work.Stage, now timer.Moment) (id string, ok, on bool) {
	switch st.Kind {
	case work.GelStage:
		for _, t := range st.Tasks {
			if t.Open && a.fresh(rest.GelTimerOf(t.ID), now) {
				return t.ID, true, false
			}
		}
		return "", false, true
	case work.Unmould:
		for _, t := range st.Tasks {
			if t.Open && TooEarly(a.Timers, a.State, t.ID, now) == nil {
				return t.ID, true, false
			}
		}
		return "", false, slices.ContainsFunc(st.Tasks, func(t work.Task) bool { return t.Done }) // A loaf that is out may be cut.
	case work.CureStage:
		id, ok = a.inCure(st, now)
		return id, ok, !ok
	default:
		return "", false, true
	}
}

// inCure is to mark a bar, then a weigh-in when it is due, then the end of
// the cure.
func (a Among) inCure(st work.Stage, now timer.Moment) (string, bool) {
	cure := curing.Of(a.State)
	mark, _, _, weighed := cure.NextBar()
	for _, t := range st.Tasks {
		switch {
		case !t.Open:
		case t.Do == work.WeighIn && !weighed && len(cure.Marks) == 0:
			return t.ID, true
		case t.Do == work.WeighIn && weighed && t.Bar == mark && a.weighInDue(now):
			return t.ID, true
		case t.ID == rest.WholeCure && a.due(rest.ReadyDue, now):
			return t.ID, true
		}
	}
	return "", false
}

func (a Among) weighInDue(now timer.Moment) bool {
	for _, t := range a.Timers {
		if strings.HasPrefix(t.ID, rest.WeighDue) {
			return t.State(now) == timer.Due || t.State(now) == timer.Acknowledged
		}
	}
	return false
}

// fresh says that a look has fallen due and is not too late yet.
func (a Among) fresh(id string, now timer.Moment) bool {
	for _, t := range a.Timers {
		if t.ID == id {
			return a.due(id, now) && t.Remaining(now) > -rest.GelLasts
		}
	}
	return false
}

// due says that a timer has fallen due, seen or not.
func (a Among) due(id string, now timer.Moment) bool {
	for _, t := range a.Timers {
		if t.ID == id {
			return t.State(now) == timer.Due || t.State(now) == timer.Acknowledged && t.Remaining(now) <= 0
		}
	}
	return false
}

// TooEarly says that the timer of a loaf's unmoulding has not fallen due. A maker who knows
// better says why.
func TooEarly(timers []timer.Timer, s batch.State, task string, now timer.Moment) error {
	id := rest.UnmouldTimer(s, task)
	for _, t := range timers {
		if t.ID != id {
			continue
		}
		switch t.State(now) {
		case timer.Running:
			return fmt.Errorf("due %s; to unmould early take that answer (s) and say why", t.Say(now))
		case timer.PutOff:
			return fmt.Errorf("%s; to unmould all the same take that answer (s) and say why", t.Say(now))
		case timer.Due, timer.Acknowledged:
		}
	}
	return nil
}

// UnmouldWaits says that a timer tells when to unmould a loaf, which nobody has seen yet.
func UnmouldWaits(timers []timer.Timer, s batch.State, task string) bool {
	id := rest.UnmouldTimer(s, task)
	return slices.ContainsFunc(timers, func(t timer.Timer) bool { return t.ID == id && !t.Seen })
}

package steps

import (
	"fmt"
	"slices"
	"strings"

	"bench/internal/rest"
	"bench/internal/timer"
	"bench/internal/work"
)

// timed says that a stage's tasks are next when their timers say so, and not
// only because the one before is done.
func timed(k work.Kind) bool { return k == work.GelStage || k == work.Unmould || k == work.CureStage }

// nextTimed gives the task of a timed stage that is next. On says that the
// stage does not keep what comes after it waiting.
func (p Plan) nextTimed(st work.Stage, now timer.Moment) (id string, ok, on bool) {
	switch st.Kind {
	case work.GelStage:
		for _, t := range st.Tasks {
			if t.Open && p.fresh(rest.GelTimerOf(t.ID), now) {
				return t.ID, true, false
			}
		}
		return "", false, true
	case work.Unmould:
		if p.TooEarly(now) != nil {
			return "", false, p.planner.after.Unmoulded() > 0 // A loaf that is out may be cut.
		}
		id, ok = firstOpen(st)
		return id, ok, false
	case work.CureStage:
		id, ok = p.nextInCure(st, now)
		return id, ok, !ok
	default:
		return "", false, true
	}
}

// TooEarly says that the unmould timer has not fallen due. A maker who knows better says
// why.
func (p Plan) TooEarly(now timer.Moment) error {
	for _, t := range p.Timers {
		if t.ID != rest.UnmouldDue {
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

// UnmouldWaits says that a timer tells when to unmould, which nobody has seen yet.
func (p Plan) UnmouldWaits() bool {
	return slices.ContainsFunc(p.Timers, func(t timer.Timer) bool { return t.ID == rest.UnmouldDue && !t.Seen })
}

// nextInCure is to mark a bar, then a weigh-in when it is due, then the end of
// the cure.
func (p Plan) nextInCure(st work.Stage, now timer.Moment) (string, bool) {
	mark, _, _, weighed := p.Curing().NextBar()
	for _, t := range st.Tasks {
		switch {
		case !t.Open:
		case t.Do == work.WeighIn && !weighed && len(p.Curing().Marks) == 0:
			return t.ID, true
		case t.Do == work.WeighIn && weighed && t.Bar == mark && p.weighInDue(now):
			return t.ID, true
		case t.ID == rest.WholeCure && p.due(rest.ReadyDue, now):
			return t.ID, true
		}
	}
	return "", false
}

func (p Plan) weighInDue(now timer.Moment) bool {
	for _, t := range p.Timers {
		if strings.HasPrefix(t.ID, rest.WeighDue) {
			return t.State(now) == timer.Due || t.State(now) == timer.Acknowledged
		}
	}
	return false
}

// fresh says that a look has fallen due and is not too late yet.
func (p Plan) fresh(id string, now timer.Moment) bool {
	for _, t := range p.Timers {
		if t.ID == id {
			return p.due(id, now) && t.Remaining(now) > -rest.GelLasts
		}
	}
	return false
}

// due says that a timer has fallen due, seen or not.
func (p Plan) due(id string, now timer.Moment) bool {
	for _, t := range p.Timers {
		if t.ID == id {
			return t.State(now) == timer.Due || t.State(now) == timer.Acknowledged && t.Remaining(now) <= 0
		}
	}
	return false
}

package steps

import (
	"fmt"
	"strings"
	"time"

	"bench/internal/batch"
	"bench/internal/curing"
	"bench/internal/recipe"
	"bench/internal/timer"
	"bench/internal/work"
)

// The timers after the pour. Their ids are those of Plan.Ahead, too.
const (
	CutDue   = "cut"
	ReadyDue = "ready"
	weighDue = "weigh-in/"
	// cutWithin is how long a loaf waits for the cut once it is unmoulded, before
	// it turns brittle (common practice, no source).
	cutWithin = 12 * time.Hour
)

// restTimers run from the last pour of the last loaf: each stage's until it is
// done.
func (p *planner) restTimers(stages []work.Stage) []timer.Timer {
	poured, ok := p.lastPour(p.pours[len(p.pours)-1])
	if !ok {
		return nil
	}
	done := map[work.Kind]bool{}
	for _, st := range stages {
		done[st.Kind] = allDone(st)
	}
	var list []timer.Timer
	switch {
	case !done[work.Unmould]:
		list = append(list, p.gelTimers(poured)...)
		list = append(list, p.softly(timer.Timer{
			ID: UnmouldDue, Label: fmt.Sprintf("unmould %s", loaves(p.c.Loaves)), Start: poured, After: p.c.Recipe.Unmould, Priority: timer.Soon,
		}, "unmould/"))
	case !done[work.CutStage]:
		if out, ok := p.lastUnmoulded(); ok && curing.Of(p.s).Cut.IsZero() {
			list = append(list, p.softly(timer.Timer{
				ID: CutDue, Label: fmt.Sprintf("cut %s before it turns brittle", loaves(p.c.Loaves)), Start: out, After: cutWithin, Priority: timer.Soon,
			}, "cut/"))
		}
	}
	if !done[work.CureStage] {
		list = append(list, p.cureTimers()...)
	}
	return list
}

func allDone(st work.Stage) bool {
	for _, t := range st.Tasks {
		if !t.Done {
			return false
		}
	}
	return true
}

func (p *planner) gelTimers(poured timer.Moment) []timer.Timer {
	if p.c.Recipe.Gel == recipe.GelPrevented {
		return nil
	}
	var list []timer.Timer
	for _, h := range p.gelHours() {
		if _, looked := batch.Last[batch.GelLooked](p.s, gelID(h)); looked {
			continue
		}
		list = append(list, timer.Timer{
			ID: fmt.Sprintf("%s%d", gelTimer, h), Label: "look at the gel: dark to the edge? cracks? too hot?",
			Start: poured, After: time.Duration(h) * time.Hour, Priority: timer.ActNow, Presses: gelLasts,
		})
	}
	return list
}

// softly puts a timer off for a loaf that was too soft.
func (p *planner) softly(t timer.Timer, tasks string) timer.Timer {
	for _, off := range batch.All[batch.UnmouldPutOff](p.s) {
		if strings.HasPrefix(off.Fact.Task, tasks) {
			t.Deferred, t.DeferFor = off.Moment(), off.Fact.For
		}
	}
	return t
}

func (p *planner) lastUnmoulded() (timer.Moment, bool) {
	ticks := make([]string, p.c.Loaves)
	for loaf := range ticks {
		ticks[loaf] = unmouldID(loaf)
	}
	return p.lastDone(ticks)
}

// cureTimers are the next weigh-in, and when the bars are expected to be ready.
func (p *planner) cureTimers() []timer.Timer {
	c := curing.Of(p.s)
	if c.Cut.IsZero() {
		return nil
	}
	var list []timer.Timer
	if mark, rounds, since, ok := c.NextBar(); ok {
		list = append(list, timer.Timer{
			ID: fmt.Sprintf("%s%d", weighDue, rounds+1), Label: "weigh bar " + mark, Start: since, After: c.Rules.WeighEvery, Priority: timer.Later,
		})
	}
	return append(list, timer.Timer{
		ID: ReadyDue, Label: fmt.Sprintf("cure of %s over: test and release", bars(c.Bars)), Start: c.Cut, After: c.Rules.Usual, Priority: timer.Later,
	})
}

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
// order: unmould, cut, weigh-ins, ready. What has not begun is reckoned from
// when the step before it is due.
func (p Plan) Ahead(now timer.Moment) []Date {
	if p.planner == nil || p.Closed {
		return nil
	}
	var list []Date
	due := map[string]timer.Timer{}
	for _, t := range p.Timers {
		due[t.ID] = t
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
	pl := p.planner
	poured, ok := pl.lastPour(pl.pours[len(pl.pours)-1])
	if !ok {
		return nil
	}
	rules := p.Curing().Rules
	cut := p.Curing().Cut.Wall
	if cut.IsZero() {
		out := poured.Wall.Add(pl.c.Recipe.Unmould)
		if at, done := pl.lastUnmoulded(); done {
			out = at.Wall
		} else {
			out = step(UnmouldDue, "unmould "+loaves(p.Loaves), poured.Wall, out.Sub(poured.Wall))
		}
		cut = step(CutDue, "cut "+loaves(p.Loaves), out, cutWithin)
	}
	if pl.ticked(WholeCure) {
		return list
	}
	return p.aheadInCure(list, now, cut, rules, due)
}

// aheadInCure adds the weigh-ins up to the day on which the bars are ready.
func (p Plan) aheadInCure(list []Date, now timer.Moment, cut time.Time, rules recipe.Cure, due map[string]timer.Timer) []Date {
	ready := cut.Add(rules.Usual)
	if t, runs := due[ReadyDue]; runs {
		ready = t.AsksAt(now)
	}
	mark, rounds, since, weighed := p.Curing().NextBar()
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
		list = append(list, Date{fmt.Sprintf("%s%d", weighDue, n), label, at, known})
	}
	return append(list, Date{ReadyDue, fmt.Sprintf("%s: cure over, test and release", p.Recipe), ready, due[ReadyDue].ID != ""})
}

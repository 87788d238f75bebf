package rest

import (
	"fmt"
	"strings"
	"time"

	"bench/internal/batch"
	"bench/internal/curing"
	"bench/internal/quantity"
	"bench/internal/timer"
	"bench/internal/work"
)

// The timers after the pour. Their ids are those of Ahead, too.
const (
	UnmouldDue = "unmould" // UnmouldDue is the timer that the unmoulding waits for.
	CutDue     = "cut"
	ReadyDue   = "ready"
	GelTimer   = "gel look/" // GelTimer comes before the hours.
	WeighDue   = "weigh-in/"
	// cutWithin is how long a loaf waits for the cut once it is unmoulded, before
	// it turns brittle (common practice, no source).
	cutWithin = 12 * time.Hour
)

// GelLasts is how long a look at the gel can still tell anything (common
// practice, no source).
const GelLasts = 6 * time.Hour

// Timers run from the last pour of the last loaf: each stage's until it is
// done.
func (r Rest) Timers(stages []work.Stage) []timer.Timer {
	if r.Poured.IsZero() {
		return nil
	}
	done := map[work.Kind]bool{}
	for _, st := range stages {
		done[st.Kind] = allDone(st)
	}
	var list []timer.Timer
	switch {
	case !done[work.Unmould]:
		if !done[work.GelStage] {
			list = append(list, r.gelTimers()...)
		}
		list = append(list, r.softly(timer.Timer{
			ID: UnmouldDue, Label: fmt.Sprintf("unmould %s", quantity.Count(r.Control.Loaves, "loaf", "loaves")), Start: r.Poured, After: r.Control.Recipe.Unmould, Priority: timer.Soon,
		}, "unmould/"))
	case !done[work.CutStage]:
		if out, ok := r.lastUnmoulded(); ok && curing.Of(r.State).Cut.IsZero() {
			list = append(list, r.softly(timer.Timer{
				ID: CutDue, Label: fmt.Sprintf("cut %s before it turns brittle", quantity.Count(r.Control.Loaves, "loaf", "loaves")), Start: out, After: cutWithin, Priority: timer.Soon,
			}, "cut/"))
		}
	}
	if !done[work.CureStage] {
		list = append(list, r.cureTimers()...)
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

// softly puts a timer off for a loaf that was too soft.
func (r Rest) softly(t timer.Timer, tasks string) timer.Timer {
	for _, off := range batch.All[batch.UnmouldPutOff](r.State) {
		if strings.HasPrefix(off.Fact.Task, tasks) {
			t.Deferred, t.DeferFor = off.Moment(), off.Fact.For
		}
	}
	return t
}

func (r Rest) lastUnmoulded() (timer.Moment, bool) {
	ticks := make([]string, r.Control.Loaves)
	for loaf := range ticks {
		ticks[loaf] = UnmouldID(loaf)
	}
	return r.State.LastDone(ticks)
}

// cureTimers are the next weigh-in, and when the bars are expected to be ready.
func (r Rest) cureTimers() []timer.Timer {
	c := curing.Of(r.State)
	if c.Cut.IsZero() {
		return nil
	}
	var list []timer.Timer
	if mark, rounds, since, ok := c.NextBar(); ok {
		list = append(list, timer.Timer{
			ID: fmt.Sprintf("%s%d", WeighDue, rounds+1), Label: "weigh bar " + mark, Start: since, After: c.Rules.WeighEvery, Priority: timer.Later,
		})
	}
	return append(list, timer.Timer{
		ID: ReadyDue, Label: fmt.Sprintf("cure of %s over: test and release", quantity.Count(c.Bars, "bar", "bars")), Start: c.Cut, After: c.Rules.Usual, Priority: timer.Later,
	})
}

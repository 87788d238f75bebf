package rest

import (
	"fmt"
	"strconv"
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
	RetestDue  = "retest/" // RetestDue comes before the number of the test that failed.
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
	if !done[work.Unmould] {
		if !done[work.GelStage] {
			list = append(list, r.gelTimers()...)
		}
		list = append(list, r.unmouldTimers()...)
	}
	list = append(list, r.cutTimers()...)
	if !done[work.CureStage] {
		list = append(list, r.cureTimers()...)
	}
	return append(list, r.retestTimers()...)
}

func allDone(st work.Stage) bool {
	for _, t := range st.Tasks {
		if !t.Done {
			return false
		}
	}
	return true
}

// inMould are the loaves that are not out yet, counted from 1.
func (r Rest) inMould() []int {
	return r.loavesThat(func(loaf int) bool { return !r.ticked(UnmouldID(loaf - 1)) })
}

// whole are the loaves that are out and not cut yet, counted from 1.
func (r Rest) whole() []int {
	return r.loavesThat(func(loaf int) bool {
		d, out := r.State.Done(UnmouldID(loaf - 1))
		return out && d.Skipped == "" && !r.isCut(loaf)
	})
}

// isCut says that a loaf was cut, or will not be.
func (r Rest) isCut(loaf int) bool {
	_, cut := batch.Last[batch.BarsCut](r.State, curing.CutTask(loaf))
	return cut || r.ticked(curing.CutTask(loaf))
}

func (r Rest) loavesThat(are func(loaf int) bool) []int {
	var list []int
	for loaf := 1; loaf <= r.Control.Loaves; loaf++ {
		if are(loaf) {
			list = append(list, loaf)
		}
	}
	return list
}

// someLoaves counts all loaves, and names those that are not all.
func (r Rest) someLoaves(list []int) string {
	if len(list) == r.Control.Loaves {
		return quantity.Count(len(list), "loaf", "loaves")
	}
	words := make([]string, len(list))
	for i, loaf := range list {
		words[i] = strconv.Itoa(loaf)
	}
	if last := len(words) - 1; last > 0 {
		return "loaves " + strings.Join(words[:last], ", ") + " and " + words[last]
	}
	return "loaf " + strings.Join(words, "")
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

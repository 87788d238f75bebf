package rest

import (
	"slices"
	"strings"
	"time"

	"bench/internal/batch"
	"bench/internal/timer"
	"bench/internal/work"
)

// oneLook is how far apart loaves may be put off for as long and still be looked at again
// together (a judgement, no source).
const oneLook = time.Hour

// lot is some loaves that one timer is about.
type lot struct {
	id     string // id is the timer's.
	loaves []int  // loaves are those that it still asks for, counted from 1.
	off    timer.Moment
	wait   time.Duration // wait is how long they were put off, from off; zero is not.
}

// lots parts the loaves that are left of a task, "unmould" or "cut": those that were never
// too soft for it keep its time, and those that were have that of their look again.
func (r Rest) lots(task string, left []int) []lot {
	var list []lot
	soft := r.soft(task)
	onTime := slices.DeleteFunc(slices.Clone(left), func(loaf int) bool {
		return slices.ContainsFunc(soft, func(l lot) bool { return slices.Contains(l.loaves, loaf) })
	})
	if len(onTime) > 0 {
		list = append(list, lot{id: task, loaves: onTime})
	}
	for _, l := range soft {
		l.loaves = slices.DeleteFunc(l.loaves, func(loaf int) bool { return !slices.Contains(left, loaf) })
		if len(l.loaves) > 0 {
			list = append(list, l)
		}
	}
	return list
}

// soft are the loaves that were too soft for a task, or stuck, look by look, each as it was said of it
// last. The timer of a look has the name of its first loaf, whether that is out by now or not.
func (r Rest) soft(task string) []lot {
	var said []batch.Told[batch.UnmouldPutOff]
	for _, told := range batch.All[batch.UnmouldPutOff](r.State) {
		if !strings.HasPrefix(told.Fact.Task, task+"/") {
			continue
		}
		said = slices.DeleteFunc(said, func(before batch.Told[batch.UnmouldPutOff]) bool { return before.Fact.Task == told.Fact.Task })
		said = append(said, told)
	}
	var list []lot
	began := timer.Moment{}
	for _, told := range said {
		loaf := work.LoafOf(told.Fact.Task)
		if since, _ := told.Moment().Since(began); len(list) == 0 || since >= oneLook || list[len(list)-1].wait != told.Fact.For {
			list, began = append(list, lot{id: r.timerOf(task, loaf)}), told.Moment()
		}
		look := &list[len(list)-1]
		look.loaves = append(look.loaves, loaf)
		slices.Sort(look.loaves)
		look.off, look.wait = told.Moment(), told.Fact.For
	}
	return list
}

// timerOf is the timer of a loaf that has one of its own; that of the only loaf is the task's.
func (r Rest) timerOf(task string, loaf int) string {
	if r.Control.Loaves == 1 {
		return task
	}
	return work.OfLoaf(task, loaf-1)
}

// UnmouldTimer gives the timer that a loaf's unmoulding waits for, by its task, or "".
func UnmouldTimer(s batch.State, task string) string {
	r := Rest{Control: s.Control, State: s}
	for _, l := range r.lots(UnmouldDue, r.inMould()) {
		if slices.Contains(l.loaves, work.LoafOf(task)) {
			return l.id
		}
	}
	return ""
}

func (r Rest) unmouldTimers() []timer.Timer {
	var list []timer.Timer
	for _, l := range r.lots(UnmouldDue, r.inMould()) {
		list = append(list, timer.Timer{
			ID: l.id, Label: "unmould " + r.someLoaves(l.loaves), Start: r.Poured, After: r.Control.Recipe.Unmould, Priority: timer.Soon,
			Deferred: l.off, DeferFor: l.wait,
		})
	}
	return list
}

// cutTimers tell when the first of the loaves that are out, and whole, turns brittle; those
// that were too soft to cut do not so soon. One that came out after the timer was seen has a
// timer of its own.
func (r Rest) cutTimers() []timer.Timer {
	var list []timer.Timer
	for _, l := range r.lots(CutDue, r.whole()) {
		first, out := 0, timer.Moment{}
		for _, loaf := range l.loaves {
			if d, _ := r.State.Done(UnmouldID(loaf - 1)); out.IsZero() || d.At.Wall.Before(out.Wall) {
				first, out = loaf, d.At
			}
		}
		if w, ok := r.State.Timer(CutDue); ok && l.id == CutDue && w.Seen && w.At.Wall.Before(out.Wall) {
			l.id = r.timerOf(CutDue, first)
		}
		list = append(list, timer.Timer{
			ID: l.id, Label: "cut " + r.someLoaves(l.loaves) + " before it turns brittle", Start: out, After: cutWithin, Priority: timer.Soon,
			Deferred: l.off, DeferFor: l.wait,
		})
	}
	return list
}

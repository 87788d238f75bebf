// Package say puts facts into words: each in one line, and what followed from portions
// that were off.
//
// The rule: a task is called what the plan calls it; what was asked and what was
// measured stand as the fact has them. Facts that follow the pour tell themselves.
package say

import (
	"cmp"
	"fmt"
	"strings"
	"time"

	"bench/internal/batch"
	"bench/internal/lye"
	"bench/internal/quantity"
	"bench/internal/rest"
	"bench/internal/steps"
	"bench/internal/tell"
	"bench/internal/timer"
	"bench/internal/work"
)

// in is what a fact is put into words with.
type in struct {
	plan  steps.Plan
	state batch.State
}

// Fact puts a fact of a batch into one line of words, by the plan of its facts.
func Fact(e batch.Entry, p steps.Plan, s batch.State) string { return in{p, s}.fact(e) }

func (w in) fact(e batch.Entry) string {
	switch f := e.Fact.(type) {
	case batch.Started:
		return fmt.Sprintf("batch begun: %s, %s", f.Control.Recipe.Name, quantity.Count(f.Control.Loaves, "loaf", "loaves"))
	case batch.Weighed:
		return w.plan.About(f.Task) + w.weighed(f) + w.inGoes(e, f)
	case batch.Ticked:
		words := w.plan.About(f.Task) + cmp.Or(f.Asked, w.plan.Title(f.Task))
		if !f.When.IsZero() {
			words += ", at " + clockOf(f.When, e.At.Wall)
		}
		if t, _, _ := w.plan.Task(f.Task); t.Poured() && f.Mass > 0 {
			words += ", " + f.Mass.Reading(quantity.Gram/10) + " weighed into it"
		} else if f.Mass > 0 {
			words += ", weighs " + f.Mass.Reading(quantity.Gram/10)
		}
		if f.Why != "" {
			words += w.beforehand(f.Task) + f.Why
		}
		return words
	case batch.Grossed:
		return w.plan.About(f.Task) + fmt.Sprintf("%s weighs %s, net %s g", f.Vessel, f.Gross.Reading(f.Reads), (f.Gross-w.plan.EmptyOf(e.Seq, f)).At(f.Reads))
	case batch.TemperatureTaken:
		return fmt.Sprintf("%s: %s", strings.Replace(f.Task, "/", ", ", 1), f.Temperature)
	case batch.Skipped:
		return fmt.Sprintf("left out: %s (%s)", cmp.Or(f.Asked, w.plan.Title(f.Task)), f.Reason)
	case batch.TimerSeen:
		return "seen: " + timerName(f.Timer)
	case batch.TimerPutOff:
		return fmt.Sprintf("put off for %s: %s", timer.Words(f.For), timerName(f.Timer))
	case batch.Noted:
		return "note: " + f.Text
	case batch.Corrected:
		return fmt.Sprintf("corrected no. %d: %s (was: %s; why: %s)", f.Seq, w.fact(batch.Entry{At: w.momentOf(f.Seq), Fact: f.With}), w.first(f.Seq), f.Reason)
	case batch.Withdrawn:
		return fmt.Sprintf("taken back no. %d: %s (why: %s)", f.Seq, w.first(f.Seq), f.Reason)
	case batch.Decided:
		return w.decided(f)
	case batch.WarningSeen:
		if f.Typed != "" {
			return "read, and answered " + f.Typed + ": " + f.Warning
		}
		return "read: " + f.Warning
	case batch.PotWeighed:
		return fmt.Sprintf("%s weighs %s g: %s", f.Vessel, f.Gross.At(quantity.Gram/10), f.Finding)
	case batch.PotAnswered:
		return fmt.Sprintf("%s, %s: not weighed again: %s", f.Vessel, f.Finding, f.Answer)
	case batch.VesselReplaced:
		return replaced(f)
	case batch.SharedAnswered:
		return f.Shared + ": " + f.Answer
	case batch.GelLooked, batch.UnmouldPutOff, batch.BarsCut, batch.BarsWeighed, batch.SetAside, batch.Marked, batch.WeighedIn,
		batch.Tested, batch.Released, batch.Held, batch.Reworks, batch.LimitStated, batch.Complained, batch.BarsWent:
		return tell.Fact(f)
	case batch.Closed:
		if f.Reason == "" {
			return "batch closed" + after(f.Left)
		}
		return "batch ended early: " + f.Reason + after(f.Left)
	case batch.Stopped:
		words := "batch ended, and vessels hold something still"
		if f.Reason != "" {
			words += ": " + f.Reason
		}
		for _, l := range f.Left {
			words += after(l.String())
		}
		return words
	}
	return batch.Kind(e.Fact)
}

// beforehand says what stands between what was done and why it was not put off.
func (w in) beforehand(task string) string {
	if _, st, ok := w.plan.Task(task); ok && st.Kind == work.Gate {
		return ", all the same: "
	}
	return ", before its time: "
}

// first puts the fact that a correction is about into words.
func (w in) first(seq int) string {
	if seq < 1 || seq > len(w.state.Entries) {
		return "no entry"
	}
	e := w.state.Entries[seq-1]
	switch e.Fact.(type) {
	case batch.Corrected, batch.Withdrawn: // Or it might name itself.
		return "nothing that can be corrected"
	default:
		return w.fact(e)
	}
}

// clockOf says a time of day, with the day where that is not the one on which it was said.
func clockOf(when, said time.Time) string {
	if said.IsZero() || when.Format(time.DateOnly) == said.In(when.Location()).Format(time.DateOnly) {
		return when.Format("15:04")
	}
	return when.Format("2006-01-02 15:04")
}

// momentOf gives when a fact was said.
func (w in) momentOf(seq int) timer.Moment {
	if seq < 1 || seq > len(w.state.Entries) {
		return timer.Moment{}
	}
	return w.state.Entries[seq-1].At
}

// timerName says in words what a timer is for, whether or not it still runs.
func timerName(id string) string {
	kind, of, _ := strings.Cut(id, "/")
	switch kind + "/" {
	case work.LookTimer:
		layer, _, _ := strings.Cut(of, "/")
		return "look at " + layer
	case rest.GelTimer:
		if strings.HasPrefix(of, "again ") {
			return "look again at what overheats"
		}
		return "look at the gel after " + of + " h"
	case lye.CoolTimer:
		return of + " lye solution cool enough"
	case "lye/":
		return of + " lye solution cooling"
	case "batter/":
		return of + " batter since the lye went in"
	}
	return id
}

// inGoes says of the last of several containers what all of them brought: alone it would
// read as if the rest were missing.
func (w in) inGoes(e batch.Entry, f batch.Weighed) string {
	goes, all := 1, f.Mass
	for _, one := range w.state.Weighings(f.Task) {
		if one.Seq < e.Seq {
			goes, all = goes+1, all+one.Fact.Mass
		}
	}
	if goes == 1 || f.More {
		return ""
	}
	return fmt.Sprintf(" (%s in %d goes)", all.Reading(f.Reads), goes)
}

func (w in) weighed(f batch.Weighed) string {
	name := f.Material
	if t, _, ok := w.plan.Task(f.Task); ok && t.OfBatter() {
		name = t.Title
	}
	words := fmt.Sprintf("%s %s", name, f.Mass.Reading(f.Reads))
	switch {
	case f.Mass == 0 && f.How == batch.AtTarget:
		words = name + ": that was all"
	case f.How == batch.ByEye:
		words += " by eye, not weighed"
	case f.More:
		words += ", more to come"
	case f.Mass != f.Target:
		words += ", asked " + f.Target.At(f.Reads)
	}
	return words
}

func replaced(f batch.VesselReplaced) string {
	words := fmt.Sprintf("%s taken instead of %s", f.By, f.Vessel)
	if f.Held != "" {
		words += " for " + f.Held
	}
	words += fmt.Sprintf(", %s empty", f.Tare)
	if f.Brim > 0 {
		words += fmt.Sprintf(", %.0f ml to the brim", f.Brim.Millilitres())
	}
	return words
}

func (w in) decided(f batch.Decided) string {
	words := map[batch.Way]string{
		batch.CarryOn: "carry on, the rest follows", batch.InProportion: "everything else in proportion",
		batch.PourPart: "pour part of the lye solution, keep the rest", batch.Shortfall: "dissolve what is missing",
		batch.MakeUp: "the other alkali makes up for it", batch.AddOil: "add oil", batch.AddMissing: "add what is missing", batch.TakeOut: "take some out again",
		batch.HoldBatch: "go on, and hold the bars", batch.PourBack: "pour some back", batch.PourOver: "pour some over into another",
	}[f.Way]
	if f.Way == batch.PourOver && f.Off < 0 {
		words = "pour some over out of another"
	}
	if title := w.plan.Title(f.Other); title != "" {
		words += ", " + strings.ToLower(title[:1]) + title[1:]
	}
	if f.Mass > 0 {
		words += fmt.Sprintf(" (%s g)", f.Mass.At(quantity.Gram/100))
	}
	return fmt.Sprintf("%s%s: %s", w.plan.About(f.Task), w.plan.Title(f.Task), words)
}

// after puts more words behind others.
func after(words string) string {
	if words == "" {
		return ""
	}
	return "; " + words
}

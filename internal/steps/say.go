package steps

import (
	"cmp"
	"fmt"
	"strings"
	"time"

	"bench/internal/batch"
	"bench/internal/lye"
	"bench/internal/quantity"
	"bench/internal/rest"
	"bench/internal/tell"
	"bench/internal/timer"
	"bench/internal/work"
)

// Say puts a fact into one line of words. A screen that has the plan at hand
// asks the plan instead.
func Say(e batch.Entry, s batch.State) string { return Of(s).Say(e, s) }

// Say puts a fact into one line of words, for the last-facts line and the
// record.
func (p Plan) Say(e batch.Entry, s batch.State) string {
	switch f := e.Fact.(type) {
	case batch.Started:
		return fmt.Sprintf("batch begun: %s, %s", f.Control.Recipe.Name, loaves(f.Control.Loaves))
	case batch.Weighed:
		return p.about(f.Task) + p.sayWeighed(f) + inGoes(e, f, s)
	case batch.Ticked:
		words := p.about(f.Task) + cmp.Or(f.Asked, p.Title(f.Task))
		if !f.When.IsZero() {
			words += ", at " + clockOf(f.When, e.At.Wall)
		}
		if f.Mass > 0 {
			words += ", weighs " + f.Mass.At(tenthOfGram) + " g"
		}
		if f.Why != "" {
			words += ", before its time: " + f.Why
		}
		return words
	case batch.Grossed:
		return p.about(f.Task) + fmt.Sprintf("%s weighs %s, net %s g", f.Vessel, grams(f.Gross, f.Reads), (f.Gross-p.EmptyOf(e.Seq, f)).At(f.Reads))
	case batch.TemperatureTaken:
		return fmt.Sprintf("%s: %s", strings.Replace(f.Task, "/", ", ", 1), f.Temperature)
	case batch.Skipped:
		return fmt.Sprintf("left out: %s (%s)", cmp.Or(f.Asked, p.Title(f.Task)), f.Reason)
	case batch.TimerSeen:
		return "seen: " + timerName(f.Timer)
	case batch.TimerPutOff:
		return fmt.Sprintf("put off for %s: %s", timer.Words(f.For), timerName(f.Timer))
	case batch.Noted:
		return "note: " + f.Text
	case batch.Corrected:
		return fmt.Sprintf("corrected no. %d: %s (was: %s; why: %s)", f.Seq, p.Say(batch.Entry{At: momentOf(f.Seq, s), Fact: f.With}, s), p.sayFirst(f.Seq, s), f.Reason)
	case batch.Withdrawn:
		return fmt.Sprintf("taken back no. %d: %s (why: %s)", f.Seq, p.sayFirst(f.Seq, s), f.Reason)
	case batch.Decided:
		return p.sayDecided(f)
	case batch.WarningSeen:
		if f.Typed != "" {
			return "read, and answered " + f.Typed + ": " + f.Warning
		}
		return "read: " + f.Warning
	case batch.PotWeighed:
		return fmt.Sprintf("%s weighs %s g: %s", f.Vessel, f.Gross.At(quantity.Gram/10), f.Finding)
	case batch.VesselReplaced:
		return sayReplaced(f)
	case batch.SharedAnswered:
		return f.Shared + ": " + f.Answer
	case batch.GelLooked, batch.UnmouldPutOff, batch.BarsCut, batch.BarsWeighed, batch.SetAside, batch.Marked, batch.WeighedIn,
		batch.Tested, batch.Released, batch.Held, batch.Reworks, batch.LimitStated, batch.Complained, batch.BarsWent:
		return tell.Fact(f)
	case batch.Closed:
		if f.Reason == "" {
			return "batch closed"
		}
		return "batch ended early: " + f.Reason
	}
	return batch.Kind(e.Fact)
}

// sayFirst puts the fact that a correction is about into words.
func (p Plan) sayFirst(seq int, s batch.State) string {
	if seq < 1 || seq > len(s.Entries) {
		return "no entry"
	}
	e := s.Entries[seq-1]
	switch e.Fact.(type) {
	case batch.Corrected, batch.Withdrawn: // Or it might name itself.
		return "nothing that can be corrected"
	default:
		return p.Say(e, s)
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
func momentOf(seq int, s batch.State) timer.Moment {
	if seq < 1 || seq > len(s.Entries) {
		return timer.Moment{}
	}
	return s.Entries[seq-1].At
}

// timerName says in words what a timer is for, whether or not it still runs.
func timerName(id string) string {
	kind, of, _ := strings.Cut(id, "/")
	switch kind + "/" {
	case lookTimer:
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

// about names the layer, the batter or the stage that a task belongs to.
func (p Plan) about(task string) string {
	_, st, ok := p.Task(task)
	switch {
	case !ok:
		return ""
	case st.Layer != "":
		return st.Layer + ": "
	case st.Batter != "":
		return st.Batter + ": "
	default:
		return st.Title + ": "
	}
}

// inGoes says of the last of several containers what all of them brought: alone it would
// read as if the rest were missing.
func inGoes(e batch.Entry, f batch.Weighed, s batch.State) string {
	goes, all := 1, f.Mass
	for _, w := range s.Weighings(f.Task) {
		if w.Seq < e.Seq {
			goes, all = goes+1, all+w.Fact.Mass
		}
	}
	if goes == 1 || f.More {
		return ""
	}
	return fmt.Sprintf(" (%s in %d goes)", grams(all, f.Reads), goes)
}

func (p Plan) sayWeighed(f batch.Weighed) string {
	name := f.Material
	if t, _, ok := p.Task(f.Task); ok && t.Do == work.Portion {
		name = t.Title
	}
	words := fmt.Sprintf("%s %s", name, grams(f.Mass, f.Reads))
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

// Title gives a task's words, or its id where the plan no longer has it.
func (p Plan) Title(id string) string {
	if t, _, ok := p.Task(id); ok {
		return t.Title
	}
	return id
}

// tooHeavy names the vessels that no scale of the workshop carries full.
func (p *planner) tooHeavy() []string {
	var words []string
	look := func(full *work.Task) {
		if full.Target > full.Max {
			words = append(words, fmt.Sprintf("%s weighs %s full, and no scale carries more than %s: weigh it out in two goes, or leave that weighing out and give the reason",
				full.Vessel, full.Target.RoundTo(quantity.Gram), full.Max))
		}
	}
	for i := range p.pots {
		look(&p.pots[i].gross)
	}
	for i := range p.pours {
		look(&p.pours[i].gross)
	}
	return words
}

// coarse names the weighings for which no scale of the workshop is fine
// enough. It is said once, at the setting out.
func (p *planner) coarse() []string {
	var words []string
	for _, k := range p.pots {
		for _, tasks := range [][]work.Task{k.oils, k.alkali} {
			for _, t := range tasks {
				if t.Within > 0 && t.Within < t.Reads/2 {
					words = append(words, fmt.Sprintf("%s for %s: ±%s g is wanted, and no scale that carries it reads finer than %s",
						t.Material, k.recipe.Name, t.Within.At(quantity.Gram/100), t.Reads))
				}
			}
		}
	}
	return words
}

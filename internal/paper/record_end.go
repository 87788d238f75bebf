package paper

import (
	"fmt"
	"time"

	"bench/internal/batch"
	"bench/internal/potcheck"
	"bench/internal/quantity"
	"bench/internal/say"
	"bench/internal/work"
)

// parsed reads a time that the record wrote.
func parsed(at string) time.Time {
	t, err := time.Parse(time.RFC3339, at)
	if err != nil {
		return time.Time{}
	}
	return t
}

// yield says what came out: bars cut and weighed, and what was set aside.
func (r recorder) yield() []string {
	list := []string{}
	if r.plan.Balance.Poured {
		list = append(list, "mass balance of the batter, without embeds and toppings: "+r.plan.Balance.String())
	}
	for _, f := range batch.All[batch.BarsCut](r.s) {
		list = append(list, say.Fact(batch.Entry{Seq: f.Seq, Fact: f.Fact}, r.plan, r.s))
	}
	if c := r.plan.Curing(); c.Bars > 0 || c.Planned > 0 {
		list = append(list, fmt.Sprintf("together %s; planned %d", c.Count(), c.Planned))
	}
	list = append(list, r.weighedBars()...)
	fresh, cured := r.plan.Spreads()
	list = append(list, fresh.Words("fresh")...)
	list = append(list, cured.Words("cured")...)
	for _, f := range batch.All[batch.WeighedIn](r.s) {
		list = append(list, f.Moment().Wall.In(r.in).Format(time.DateOnly)+" "+say.Fact(batch.Entry{Seq: f.Seq, Fact: f.Fact}, r.plan, r.s))
	}
	for _, f := range batch.All[batch.SetAside](r.s) {
		list = append(list, say.Fact(batch.Entry{Seq: f.Seq, Fact: f.Fact}, r.plan, r.s))
	}
	return list
}

// weighedBars sums up the bars that were weighed, loaf by loaf; each stands among the facts.
func (r recorder) weighedBars() (list []string) {
	for _, st := range r.plan.Stages {
		for _, t := range st.Tasks {
			if t.Do == work.Bars && t.Counted > 0 {
				of := "cured"
				if t.Loaf > 0 {
					of = fmt.Sprintf("loaf %d", t.Loaf)
				}
				list = append(list, fmt.Sprintf("%s: %s weighed, %s", of, quantity.Count(t.Counted, "bar", "bars"), t.Mass.Reading(t.Reads)))
			}
		}
	}
	return list
}

// deviations lists what did not go as asked, with what was decided: in the
// order in which it was said and as they now stand, and then what nobody has
// decided yet: who read the wrong line did not weigh wrong.
func (r recorder) deviations() []SaidJSON {
	list := []SaidJSON{}
	moved := map[string]string{}
	for _, m := range say.Portions(r.plan) {
		moved[m.Task] = m.Words
	}
	for _, e := range batch.Standing(r.s.Entries) {
		if f, ok := e.Fact.(batch.Weighed); ok && moved[f.Task] != "" {
			list = append(list, SaidJSON{e.Seq, r.at(e.At), moved[f.Task]})
		} else if r.deviates(e) {
			list = append(list, SaidJSON{e.Seq, r.at(e.At), say.Fact(e, r.plan, r.s)})
		}
	}
	list = append(list, r.unseen()...)
	for _, d := range r.plan.Deviations {
		list = append(list, SaidJSON{Words: "not decided yet: " + d.Words})
	}
	return list
}

// unseen tells of looks at the gel that nobody took, and left out with no word.
func (r recorder) unseen() []SaidJSON {
	var list []SaidJSON
	for _, st := range r.plan.Stages {
		for _, t := range st.Tasks {
			if st.Kind == work.GelStage && t.Skipped != "" && t.Seq == 0 {
				list = append(list, SaidJSON{Words: t.Title + ": " + t.Skipped})
			}
		}
	}
	return list
}

// deviates says that a fact tells of something other than what was asked: a
// weight outside its tolerance or by eye, something left out or put off, a
// decision, another number of bars, a loaf that overheats or cracks.
func (r recorder) deviates(e batch.Entry) bool {
	switch f := e.Fact.(type) {
	case batch.Weighed:
		t, _, ok := r.plan.Task(f.Task)
		all, _ := r.s.Mass(f.Task) // Of several containers the last brings what is missing.
		off := (all - f.Target).Abs()
		return f.How == batch.ByEye || ok && t.Do == work.Weigh && t.Tolerance > 0 && !f.More && t.Seq == e.Seq && off > t.Tolerance
	case batch.BarsCut:
		return f.Bars != f.Planned
	case batch.Ticked:
		return f.Why != ""
	case batch.Tested:
		return !f.Passed
	case batch.GelLooked:
		return f.Look == batch.Rising || f.Look == batch.Cracked
	case batch.SetAside:
		return f.Asked != ""
	case batch.Skipped, batch.Decided, batch.WarningSeen, batch.UnmouldPutOff, batch.VesselReplaced, batch.SharedAnswered, batch.PotAnswered:
		return true
	case batch.PotWeighed:
		return !potcheck.Fine(f.Finding)
	case batch.Closed:
		return f.Reason != ""
	case batch.Stopped:
		return true
	default:
		return false
	}
}

// corrections list the first value, the later one and the reason.
func (r recorder) corrections() []CorrectedJSON {
	list := []CorrectedJSON{}
	for _, e := range r.s.Entries {
		switch f := e.Fact.(type) {
		case batch.Corrected:
			list = append(list, CorrectedJSON{e.Seq, f.Seq, r.at(e.At), r.first(f.Seq), say.Fact(batch.Entry{Fact: f.With}, r.plan, r.s), f.Reason})
		case batch.Withdrawn:
			list = append(list, CorrectedJSON{e.Seq, f.Seq, r.at(e.At), r.first(f.Seq), "taken back", f.Reason})
		default: // No other fact changes an earlier one.
		}
	}
	return list
}

// first puts the fact that a correction is about into words.
func (r recorder) first(seq int) string {
	if seq < 1 || seq > len(r.s.Entries) {
		return fmt.Sprintf("no fact %d", seq)
	}
	return say.Fact(r.s.Entries[seq-1], r.plan, r.s)
}

package steps

import (
	"bench/internal/quantity"
	"bench/internal/work"
)

// The policy of this file: what the scale reads untared is the vessel and what is in it by
// the facts, whichever weighing brought that and whatever it was planned for.

// soFar tells every weighing what is in its vessel by now. What goes in out of its cup, and
// batter, know their own.
func (p *planner) soFar(stages []work.Stage) {
	in := p.standing(stages)
	for i := range stages {
		for j := range stages[i].Tasks {
			t := &stages[i].Tasks[j]
			if t.Do != work.Weigh || t.FromCup || t.OfBatter() {
				continue
			}
			t.SoFar = in[t.Vessel]
		}
	}
}

// standing gives what was weighed into each vessel by the facts and is there still.
func (p *planner) standing(stages []work.Stage) map[string]quantity.Mass {
	if len(p.s.Entries) == 0 {
		return nil
	}
	in := map[string]quantity.Mass{}
	for i := range stages {
		st := &stages[i]
		base := ""
		for j := range st.Tasks {
			t := &st.Tasks[j]
			if t.Do != work.Weigh || t.FromCup || t.OfBatter() {
				continue
			}
			at := p.isIn(st, t)
			if t.Out { // It left the vessel of the weighing before it.
				if in[base] > 0 && t.Mass > 0 {
					in[base] = max(0, in[base]-t.Mass)
				}
			} else {
				base = at
			}
			if at != "" && t.Mass > 0 {
				in[at] += t.Mass
			}
		}
	}
	return in
}

// isIn names the vessel in which that is which was weighed for a task, or "" once it went
// where nothing is weighed on top of it.
func (p *planner) isIn(st *work.Stage, t *work.Task) string {
	facts := p.s.Weighings(t.ID)
	if len(facts) == 0 {
		return ""
	}
	vessel, _ := p.standsIn(facts[0].Fact.Vessel, facts[0].Fact.Tare, facts[0].Seq)
	gone, waits := p.emptied[t.ID]
	switch {
	case t.Parts < 2 && (waits && !gone || !waits && !t.Done): // What is weighed in parts is tipped in part by part.
		return vessel
	case p.met(st.Batter): // The lye solution is in the oils, and batter is poured by its own weight.
		return ""
	case t.Into != "":
		return t.Into
	case p.isPotOrLyeJug(vessel):
		return vessel
	}
	return ""
}

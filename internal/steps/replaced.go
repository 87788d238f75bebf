package steps

import (
	"slices"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/work"
)

// The policy of this file: a vessel that was replaced is replaced for all that it held
// then and for all that is still to come. What was weighed before keeps the vessel and
// the tare of its own time in the record; what is weighed next has the new ones.

func taken(f batch.VesselReplaced) recipe.Vessel {
	return recipe.Vessel{Name: f.By, Tare: f.Tare, Brim: f.Brim}
}

// emptyOf gives what the vessel of a whole weight weighs empty: as it was stored, or as
// that was corrected since for a vessel that was named at the bench.
func (p *planner) emptyOf(seq int, f batch.Grossed) quantity.Mass {
	tare := f.Tare
	for _, r := range p.s.Replacements() {
		if r.Seq < seq && r.Fact.By == f.Vessel {
			tare = r.Fact.Tare
		}
	}
	return tare
}

// EmptyOf is what the vessel of a whole weight, the fact of that number, weighs empty.
func (p Plan) EmptyOf(seq int, f batch.Grossed) quantity.Mass {
	if p.planner == nil {
		return f.Tare
	}
	return p.planner.emptyOf(seq, f)
}

// takenInstead says that somebody named the vessel for one of the plan.
func (p *planner) takenInstead(vessel string) bool {
	return slices.ContainsFunc(p.s.Replacements(), func(r batch.Replacement) bool { return r.Fact.By == vessel })
}

// standsIn gives the vessel in which that stands by now which was put into another by
// the fact of that number, and its tare.
func (p *planner) standsIn(vessel string, tare quantity.Mass, seq int) (string, quantity.Mass) {
	for _, r := range p.s.Replacements() {
		if r.Seq > seq && r.Fact.Vessel == vessel {
			vessel, tare = r.Fact.By, r.Fact.Tare
		}
	}
	return vessel, tare
}

// nowIn names the vessel in which what was weighed stands by now.
func (p *planner) nowIn(t work.Task) string {
	vessel, _ := p.standsIn(t.Vessel, t.Tare, t.Seq)
	return vessel
}

// moved says that a whole weight is not that of the vessel in which its contents stand
// by now: another was taken before any of the tasks in out took something away.
func (p *planner) moved(g batch.Grossing, out []string) bool {
	drawn := func(before int) bool {
		return slices.ContainsFunc(out, func(id string) bool {
			d, ticked := p.s.Done(id)
			weighed := p.s.Weighings(id)
			return ticked && d.Seq < before || len(weighed) > 0 && weighed[0].Seq < before
		})
	}
	return slices.ContainsFunc(p.s.Replacements(), func(r batch.Replacement) bool {
		return r.Seq > g.Seq && r.Fact.Vessel == g.Fact.Vessel && !drawn(r.Seq)
	})
}

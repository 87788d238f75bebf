package steps

import (
	"slices"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/work"
)

// The policy of this file: a decision is about a weight as it stood. A correction
// that mends the weight, or makes it another, ends the decision: it asks for
// nothing any more. What was weighed upon it is in all the same and is counted, so
// that nothing is asked for twice.

// off says by how much a weighing is off, or that it was no weighing, where nobody
// has decided upon it.
func (p *planner) off(k pot, t work.Task) (quantity.Mass, bool) {
	if !t.Done || t.Target <= 0 || t.Tolerance <= 0 {
		return 0, false
	}
	if _, decided := p.decision(t.ID); decided {
		return 0, false
	}
	since, up := p.since(t.ID, len(p.s.Entries)+1)
	switch {
	case up > 0 && k.up: // It is as far up as everything else.
		return 0, false
	case up > 0:
		since += up
	}
	off := t.Mass + since - t.Target
	return off, t.ByEye || off.Abs() > t.Tolerance
}

// decision gives the last decision upon a weighing, if that still is as it was
// decided upon.
func (p *planner) decision(task string) (batch.Decision, bool) {
	d, ok := p.s.Decision(task)
	if !ok {
		return d, false
	}
	facts := p.s.Weighings(task)
	if len(facts) == 0 {
		left, done := p.s.Done(task)
		return d, done && left.Skipped != ""
	}
	mass, _ := p.s.Mass(task)
	raw := mass - facts[len(facts)-1].Fact.Target
	eye := slices.ContainsFunc(facts, func(w batch.Weighing) bool { return w.Fact.How == batch.ByEye })
	if d.Fact.ByEye && !eye {
		return d, false
	}
	since, up := p.since(task, d.Seq)
	same := func(off quantity.Mass) bool {
		return (d.Fact.Off-off).Abs() <= d.Fact.Within && (eye || off.Abs() > d.Fact.Within)
	}
	return d, same(raw+since) || same(raw+since+up)
}

// since gives what was weighed of a material upon decisions about its weighing, up
// to a fact and that one left out; and what brought it up with everything else.
func (p *planner) since(task string, before int) (decided, up quantity.Mass) {
	if p.s.Undecided() {
		return 0, 0
	}
	for i, d := range p.s.Decisions(task) {
		decided += p.weighedBefore(missingID(task, i), before) - p.weighedBefore(outID(task, i), before) +
			p.weighedBefore(forItselfID(task, d.Fact.Oil, i), before)
	}
	return decided, p.weighedBefore(topUpID(task), before)
}

func (p *planner) weighedBefore(task string, seq int) quantity.Mass {
	m := quantity.Mass(0)
	for _, w := range p.s.Weighings(task) {
		if w.Seq < seq {
			m += w.Fact.Mass
		}
	}
	return m
}

// decided says that a decision upon a weighing stands and is of this way.
func (p *planner) decided(task string, way batch.Way) bool {
	d, ok := p.decision(task)
	return ok && d.Fact.Way == way
}

// wants says whether what the n-th decision upon a weighing asks for has a place
// in the plan, and how much of it: what the decision says while it is the last
// word, and after that no more than was weighed.
func (p *planner) wants(task, id string, n int) (quantity.Mass, bool) {
	all := p.s.Decisions(task)
	if _, stands := p.decision(task); stands && n == len(all)-1 {
		return all[n].Fact.Mass, true
	}
	weighed, _ := p.s.Mass(id)
	return weighed, p.touched(id)
}

// worthWeighing says that so little of a material, in grams, can be told from none:
// less than twice what its weighing may be off makes a tenth of a point of
// superfat at most.
func worthWeighing(grams float64, t work.Task) bool {
	return quantity.FromGrams(grams) > 2*max(t.Within, t.Reads)
}

// ofMore is the tolerance of what is weighed on top, in grams: a tenth of it at
// most (common practice, no source).
func ofMore(grams, tolerance float64) float64 { return max(0, min(tolerance, grams/10)) }

// decidedOn says that a weighing brings in, or takes out again, what was decided upon
// another one.
func (p *planner) decidedOn(first, id string) bool {
	for i, d := range p.s.Decisions(first) {
		if id == missingID(first, i) || id == outID(first, i) || id == forItselfID(first, d.Fact.Oil, i) {
			return true
		}
	}
	return false
}

// UponDecisions gives how much of a weighing's material came in since upon decisions, or
// went out again below zero; follows says that the weighing itself came of a decision
// upon another one of its batter.
func (p Plan) UponDecisions(task, batter string) (since quantity.Mass, follows bool) {
	if p.planner == nil || p.planner.s.Undecided() {
		return 0, false
	}
	for _, st := range p.Stages {
		for _, first := range st.Tasks {
			if st.Batter == batter && first.ID != task && p.planner.decidedOn(first.ID, task) {
				return 0, true
			}
		}
	}
	since, _ = p.planner.since(task, len(p.planner.s.Entries)+1)
	return since, false
}

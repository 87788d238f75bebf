package resume

import (
	"slices"

	"bench/internal/batch"
	"bench/internal/calc"
	"bench/internal/quantity"
	"bench/internal/steps"
	"bench/internal/work"
)

// Unsaid is what stands in a vessel without a fact, by the weight of the vessel.
type Unsaid struct {
	Task  work.Task     // Task is the weighing that it was.
	Mass  quantity.Mass // Mass is what the scale says of it.
	Gross quantity.Mass // Gross is what the vessel weighed, with all that is in it.
}

// InAlready gives what the last look into a vessel found to be in it already; nothing once
// more was said about that vessel.
func InAlready(p steps.Plan) (Unsaid, bool) {
	for i, e := range slices.Backward(p.State().Entries) {
		if f, ok := e.Fact.(batch.PotWeighed); ok {
			if p.State().Withdrawn(e.Seq) || slices.ContainsFunc(p.State().Entries[i+1:], touches(p, f.Vessel)) {
				return Unsaid{}, false
			}
			return unsaid(p, f)
		}
	}
	return Unsaid{}, false
}

// touches says whether a fact is about what is in a vessel, or may be.
func touches(p steps.Plan, vessel string) func(batch.Entry) bool {
	return func(e batch.Entry) bool {
		switch e.Fact.(type) {
		case batch.Corrected, batch.Withdrawn, batch.VesselReplaced:
			return true
		default:
		}
		t, _, ok := p.Task(batch.Task(e.Fact))
		return ok && (t.Vessel == vessel || t.Into == vessel)
	}
}

// unsaid finds the open weighing that alone explains what a vessel weighs too much.
func unsaid(p steps.Plan, f batch.PotWeighed) (Unsaid, bool) {
	found, err := p.PotCheck(f.Vessel, f.Gross)
	if err != nil || found.Kind != calc.Explained || len(found.Explanations[0]) != 1 || found.Explanations[0][0].Kind != calc.Unrecorded {
		return Unsaid{}, false
	}
	for _, st := range p.Stages {
		for _, t := range st.Tasks {
			if t.Do == work.Weigh && t.Open && !t.Done && !t.Out && t.Vessel == f.Vessel && t.Material == found.Explanations[0][0].Name {
				return Unsaid{t, (f.Gross - found.Fact.Expected).RoundTo(t.Reads), f.Gross}, true
			}
		}
	}
	return Unsaid{}, false
}

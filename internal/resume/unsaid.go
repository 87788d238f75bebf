package resume

import (
	"slices"

	"bench/internal/batch"
	"bench/internal/calc"
	"bench/internal/quantity"
	"bench/internal/steps"
	"bench/internal/work"
)

// Unsaid is what stands in a vessel without a fact, by the weight of the vessel; or what
// was poured out of it without one.
type Unsaid struct {
	Task  work.Task     // Task is the weighing that it was.
	Mass  quantity.Mass // Mass is what the scale says of it.
	Gross quantity.Mass // Gross is what the vessel weighed, with all that is in it.
	Look  int           // Look numbers the fact that it was weighed.
}

// InAlready gives what the last look into a vessel found to be in it already, or out;
// nothing once more was said about that vessel.
func InAlready(p steps.Plan) (Unsaid, bool) {
	for i, e := range slices.Backward(p.State().Entries) {
		if f, ok := e.Fact.(batch.PotWeighed); ok {
			if p.State().Withdrawn(e.Seq) || slices.ContainsFunc(p.State().Entries[i+1:], p.Touches(f.Vessel)) {
				return Unsaid{}, false
			}
			return unsaid(p, f, e.Seq)
		}
	}
	return Unsaid{}, false
}

// unsaid finds the open weighing that alone explains what a vessel weighs too much, or the
// portion that explains what it lacks.
func unsaid(p steps.Plan, f batch.PotWeighed, look int) (Unsaid, bool) {
	found, err := p.PotCheck(f.Vessel, f.Gross)
	if err != nil || found.Kind != calc.Explained || len(found.Explanations[0]) != 1 {
		return Unsaid{}, false
	}
	fault := found.Explanations[0][0]
	for _, st := range p.Stages {
		for _, t := range st.Tasks {
			if t.Done || !t.Open || t.Vessel != f.Vessel {
				continue
			}
			in := fault.Kind == calc.Unrecorded && t.Do == work.Weigh && !t.Out && t.Material == fault.Name
			if in || fault.Kind == calc.PouredOut && steps.PouredAs(t, fault.Name) {
				return Unsaid{t, (f.Gross - found.Fact.Expected).Abs().RoundTo(t.Reads), f.Gross, look}, true
			}
		}
	}
	return Unsaid{}, false
}

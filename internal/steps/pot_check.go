package steps

import (
	"fmt"
	"slices"

	"bench/internal/batch"
	"bench/internal/calc"
	"bench/internal/potcheck"
	"bench/internal/quantity"
)

// PotFinding is what a gross weight says of a vessel.
type PotFinding struct {
	calc.Finding
	Batter string
	Words  string
	Fact   batch.PotWeighed
}

// PotCheck compares what a vessel weighs, all in all, with the facts.
func (p Plan) PotCheck(vessel string, gross quantity.Mass) (PotFinding, error) {
	for _, c := range p.Vessels() {
		if c.Vessel != vessel {
			continue
		}
		c.Again = p.readsAgain(c, gross)
		f, words, err := c.Check(gross)
		if err != nil {
			return PotFinding{}, err
		}
		return PotFinding{f, c.Batter, words, batch.PotWeighed{Vessel: vessel, Gross: gross, Expected: c.Expected, Finding: words}}, nil
	}
	return PotFinding{}, fmt.Errorf("there is no vessel %q to look into", vessel)
}

// AsExpected says that the facts explain the weight as they stand.
func (f PotFinding) AsExpected() bool { return f.Kind == calc.AsExpected }

// readsAgain says that the last look into a vessel read the same, within two steps of its
// scale (a judgement, no source), and that nothing went in or out since.
func (p Plan) readsAgain(c potcheck.Content, gross quantity.Mass) bool {
	entries := p.State().Entries
	for i, e := range slices.Backward(entries) {
		if f, ok := e.Fact.(batch.PotWeighed); ok && f.Vessel == c.Vessel && !p.State().Withdrawn(e.Seq) {
			return (f.Gross-gross).Abs() <= 2*c.Reads && !slices.ContainsFunc(entries[i+1:], p.Touches(f.Vessel))
		}
	}
	return false
}

// Touches says whether a fact is about what is in a vessel, or may be.
func (p Plan) Touches(vessel string) func(batch.Entry) bool {
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

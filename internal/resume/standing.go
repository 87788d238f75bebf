// Package resume says what somebody who comes back to a batch should find: on the scale,
// and in a vessel without a fact.
//
// The rule: it reads plan and facts; what is found otherwise is asked about, never put
// right by itself.
package resume

import (
	"bench/internal/quantity"
	"bench/internal/steps"
	"bench/internal/work"
)

// Standing is what should stand on a scale before the task at hand is done, for
// somebody who comes back to it.
type Standing struct {
	Vessel string
	Scale  string
	Reads  quantity.Mass // Reads is what the scale reads to.
	Gross  quantity.Mass // Gross is what it should show untared; zero where that is not known.
}

// OnScale gives what should stand on the scale for a task. Of a vessel whose
// weight is asked for, to tell it from another, the weight is not given away.
func OnScale(p steps.Plan, task string) (Standing, bool) {
	t, _, ok := p.Task(task)
	s := Standing{Vessel: t.Vessel, Scale: t.Scale, Reads: t.Reads}
	switch {
	case !ok || t.Done || t.Vessel == "":
		return Standing{}, false
	case t.Do == work.Portion:
		s.Gross = t.SoFar - t.Mass
	case t.Do == work.Weigh && t.TareKnown:
		s.Gross = t.Tare + t.SoFar
	}
	return s, true
}

// Near says that a reading is the one that is expected, as far as the scale can
// tell.
func (s Standing) Near(reading quantity.Mass) bool {
	off := reading - s.Gross
	return s.Gross > 0 && off.Abs() <= 2*s.Reads // Two readings, each off by half at most, and a drop.
}

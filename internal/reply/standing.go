package reply

import (
	"bench/internal/phrase"
	"bench/internal/quantity"
	"bench/internal/resume"
	"bench/internal/steps"
	"bench/internal/work"
)

// OnScale holds what the scale reads against what should stand on it before a task.
// A pot is looked into as a whole, and what was found is to be kept; so says that
// it is as it should be.
func OnScale(code string, p steps.Plan, task, text string) (act Act, so bool, word string) {
	m, err := quantity.ParseNumberMass(text, quantity.Gram)
	if err != nil {
		return nil, false, phrase.Sentence(err)
	}
	s, ok := resume.OnScale(p, task)
	if found, err := p.PotCheck(s.Vessel, m); err == nil {
		return Keep{Code: code, Fact: found.Fact}, found.AsExpected(), ""
	}
	switch {
	case !ok || s.Gross == 0:
		return nil, false, "Nothing is known to compare it with; enter goes on."
	case s.Near(m):
		return nil, true, s.Vessel + " is as it should be."
	}
	if t, _, _ := p.Task(task); t.Do == work.Portion && t.StopAt > 0 && (m-t.StopAt).Abs() <= max(t.Tolerance, t.Remaining()/50)+2*s.Reads { // Poured by hand (common practice, no source).
		return nil, false, s.Vessel + " reads as it should once that is poured out: pour no more. Enter goes on; then type " + m.At(s.Reads) + "."
	}
	return nil, false, s.Vessel + " reads " + m.At(s.Reads) + " and should read " + s.Gross.At(s.Reads) +
		". u corrects an entry, w weighs a pot; enter goes on all the same."
}

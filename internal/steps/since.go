package steps

import (
	"slices"

	"bench/internal/batch"
)

// Since gives the warnings that opened after the bars were released, and were not answered
// by another word since. Bars that are held have none.
func (p Plan) Since() []string {
	if p.planner == nil {
		return nil
	}
	return p.planner.after.Since
}

// openedSince compares what is open with what was open when the bars were released, as the
// facts were then: words that a later version finds in old facts open nothing. A figure
// that has changed is another warning.
func (p *planner) openedSince(batters []Batter) []string {
	released, _, word := p.s.Verdict()
	if !released {
		return nil
	}
	open := p.open(p.holds(batters, p.looksOff()))
	if len(open) == 0 { // As for most batches.
		return nil
	}
	for _, words := range openAt(p.s, word.Seq) {
		if i := slices.Index(open, words); i >= 0 {
			open = slices.Delete(open, i, i+1)
		}
	}
	return open
}

// openAt gives what was open before the fact of that number.
func openAt(s batch.State, seq int) []string {
	before := slices.IndexFunc(s.Entries, func(e batch.Entry) bool { return e.Seq >= seq })
	if before < 0 {
		return nil
	}
	plan, then := planOf(batch.Fold(s.Entries[:before]))
	return then.open(then.holds(plan.Batters, then.looksOff()))
}

// open gives the words of all that keeps bars from being released without a reason.
func (p *planner) open(holds []Hold) []string {
	var list []string
	for _, h := range holds {
		list = append(list, h.Words)
	}
	return append(list, p.after.Untested()...)
}

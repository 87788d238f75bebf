package steps

import (
	"strings"

	"bench/internal/batch"
	"bench/internal/tell"
)

// What a release test may give. The pH is common practice, no source; free
// alkali is that of a combination toilet bar, ASTM D2179-65 (1990),
// second-hand.
const (
	HighestPH      = 10.5
	MostFreeAlkali = 0.05 // % as NaOH
)

// Open gives the warnings that keep bars from being released without a reason:
// what the weights hold them for (a superfat band below zero, a scent over its
// limit), a test that failed or was left out, a cure cut short, a skin reaction.
func (p Plan) Open() []string {
	var list []string
	for _, h := range p.Holds {
		list = append(list, h.Words)
	}
	if p.planner == nil {
		return list
	}
	return append(list, p.planner.untested()...)
}

// untested names tests that failed or were left out, a cure that was cut short
// and skin reactions.
func (p *planner) untested() []string {
	var list []string
	last := map[batch.Test]batch.Tested{}
	for _, t := range batch.All[batch.Tested](p.s) {
		last[kindOf(t.Fact.Test)] = t.Fact
	}
	for _, test := range []batch.Test{batch.PHTest, batch.LookTest} {
		if t, ok := last[test]; ok && !t.Passed {
			list = append(list, "failed: "+strings.Replace(tell.Test(t), ", failed", "", 1))
		}
	}
	for _, id := range []string{alkaliTest, LookTest, WholeCure} {
		if d, ok := p.s.Done(id); ok && d.Skipped != "" {
			list = append(list, leftOut(id)+": "+d.Skipped)
		}
	}
	for _, c := range batch.All[batch.Complained](p.s) {
		if c.Fact.About == batch.SkinReaction {
			list = append(list, "skin reaction: "+c.Fact.Words)
		}
	}
	return list
}

// kindOf takes pH and free alkali for one test: the later answers for both.
func kindOf(t batch.Test) batch.Test {
	if t == batch.FreeAlkaliTest {
		return batch.PHTest
	}
	return t
}

func leftOut(id string) string {
	switch id {
	case alkaliTest:
		return "not tested for alkali"
	case LookTest:
		return "not looked over"
	}
	return "the cure was cut short"
}

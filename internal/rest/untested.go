package rest

import (
	"strings"

	"bench/internal/batch"
	"bench/internal/tell"
)

// What a release test may give. That cured soap in water has a pH of 9 to 10.5 is common
// practice, from memory; free alkali is that of a combination toilet bar, ASTM
// D2179-65 (1990), second-hand.
const (
	LowestPH       = 9.0
	HighestPH      = 10.5
	MostFreeAlkali = 0.05 // % as NaOH
)

// Passes says that a test with a figure gave what sound soap gives. A pH below that of
// soap was not measured on soap, or not as a pH.
func Passes(test batch.Test, value float64) bool {
	if test == batch.FreeAlkaliTest {
		return value >= 0 && value <= MostFreeAlkali
	}
	return value >= LowestPH && value <= HighestPH
}

// Untested names tests that failed or were left out, a cure that was cut short
// and skin reactions.
func (r Rest) Untested() []string {
	var list []string
	last := map[batch.Test]batch.Tested{}
	for _, t := range batch.All[batch.Tested](r.State) {
		last[kindOf(t.Fact.Test)] = t.Fact
	}
	for _, test := range []batch.Test{batch.PHTest, batch.LookTest} {
		if t, ok := last[test]; ok && !t.Passed {
			list = append(list, "failed: "+strings.Replace(tell.Test(t), ", failed", "", 1))
		}
	}
	for _, id := range []string{alkaliTest, LookTest, WholeCure} {
		if d, ok := r.State.Done(id); ok && d.Skipped != "" {
			list = append(list, leftOut(id)+": "+d.Skipped)
		}
	}
	for _, c := range batch.All[batch.Complained](r.State) {
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

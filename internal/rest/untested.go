package rest

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"bench/internal/batch"
	"bench/internal/tell"
	"bench/internal/timer"
)

// What a release test may give. That cured soap in water has a pH of 9 to 10.5 is common
// practice, from memory, and no more: Mwanza and Zombe (2020) measured 10.7 to 12.2 on bars on
// sale (second-hand), so that sound bars may be held by it, and released with the reason. Free
// alkali is that of a combination toilet bar, ASTM D2179-65 (1990), second-hand.
const (
	LowestPH       = 9.0
	HighestPH      = 10.5
	mostFreeAlkali = 0.05 // % as NaOH
)

// Passes says that a test with a figure gave what sound soap gives. A pH below that of
// soap was not measured on soap, or not as a pH.
func Passes(test batch.Test, value float64) bool {
	if test == batch.FreeAlkaliTest {
		return value >= 0 && value <= mostFreeAlkali
	}
	return value >= LowestPH && value <= HighestPH
}

// retestAfter is how many days after a failed test a passed one answers it: free alkali
// goes in weeks of cure, not in minutes (a week or two before the next test is common
// practice, no source). One that passes sooner stands against the other.
const retestAfter = 7

// Untested names loaves that overheated, tests that failed or were left out, a cure that
// was cut short and skin reactions.
func (r Rest) Untested() []string {
	list := r.overheated()
	for _, test := range []batch.Test{batch.PHTest, batch.LookTest} {
		if words := r.failed(test); words != "" {
			list = append(list, words)
		}
	}
	for _, id := range []string{alkaliTest, LookTest, WholeCure} {
		if d, ok := r.State.Done(id); ok && d.Skipped != "" {
			list = append(list, leftOut(id)+": "+d.Skipped)
		}
	}
	if dry := r.tooShort(); dry > 0 {
		list = append(list, "the cure was cut short: ticked "+timer.Words(dry)+" after the cut as it is dated now")
	}
	for _, c := range batch.All[batch.Complained](r.State) {
		if c.Fact.About == batch.SkinReaction {
			list = append(list, "skin reaction: "+c.Fact.Words)
		}
	}
	return list
}

// failed says that a test of this kind failed the last time that counts, or is "".
func (r Rest) failed(test batch.Test) string {
	fail, pass, open := r.failing(test)
	if !open {
		return ""
	}
	words := "failed: " + failedWords(fail)
	if pass.Seq == 0 {
		return words
	}
	return fmt.Sprintf("%s; since then %s, too soon to answer it: test again from %s",
		words, strings.Replace(tell.Test(pass.Fact), ", passed", " passed", 1), fail.Moment().Wall.AddDate(0, 0, retestAfter).Format(time.DateOnly))
}

func failedWords(fail batch.Told[batch.Tested]) string {
	return strings.Replace(tell.Test(fail.Fact), ", failed", "", 1)
}

// failing gives the last test of this kind that failed and that none has answered, and the
// one that passed since, too soon to answer it.
func (r Rest) failing(test batch.Test) (fail, pass batch.Told[batch.Tested], open bool) {
	for _, t := range batch.All[batch.Tested](r.State) {
		switch {
		case kindOf(t.Fact.Test) != test:
		case !t.Fact.Passed && (fail.Seq == 0 || !t.Moment().Wall.Before(fail.Moment().Wall)):
			fail = t
		case t.Fact.Passed && (pass.Seq == 0 || !t.Moment().Wall.Before(pass.Moment().Wall)):
			pass = t
		}
	}
	failed, passed := fail.Moment().Wall, pass.Moment().Wall
	again := failed.AddDate(0, 0, retestAfter)
	switch {
	case fail.Seq == 0:
		return fail, pass, false
	case pass.Seq == 0, passed.Before(failed), passed.Equal(failed) && pass.Seq < fail.Seq:
		return fail, batch.Told[batch.Tested]{}, true
	}
	return fail, pass, passed.In(failed.Location()).Format(time.DateOnly) < again.Format(time.DateOnly)
}

// retestTimers say when a test that failed can be answered by another, until it is or the
// bars are released all the same.
func (r Rest) retestTimers() []timer.Timer {
	if released, _, _ := r.State.Verdict(); released {
		return nil
	}
	var list []timer.Timer
	for _, test := range []batch.Test{batch.PHTest, batch.LookTest} {
		if fail, _, open := r.failing(test); open {
			what := "the look"
			if test != batch.LookTest {
				what = failedWords(fail)
			}
			list = append(list, timer.Timer{
				ID: fmt.Sprintf("%s%d", RetestDue, fail.Seq), Label: fmt.Sprintf("test the bars again (%s failed)", what),
				Start: fail.Moment(), After: retestAfter * 24 * time.Hour, Priority: timer.Later,
			})
		}
	}
	return list
}

// overPH says that a pH above what is common holds the bars.
func (r Rest) overPH() bool {
	over := slices.ContainsFunc(batch.All[batch.Tested](r.State), func(t batch.Told[batch.Tested]) bool {
		return t.Fact.Test == batch.PHTest && !t.Fact.Passed && t.Fact.Value > HighestPH
	})
	return over && r.failed(batch.PHTest) != ""
}

// overheated names the loaves that were seen rising, each once.
func (r Rest) overheated() []string {
	var list []string
	for loaf := range r.Control.Loaves {
		if r.pockets(loaf) != "" {
			list = append(list, fmt.Sprintf("loaf %d overheated: it may hold lye pockets", loaf+1))
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

package paper_test

import (
	"regexp"
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/paper"
	"bench/internal/quantity"
	"bench/internal/sample"
)

// TestPlanTellsWhatWasDone: the plan of a batch under way has the mark of what was done,
// with what was weighed, and how warm lye solution and oils met instead of how warm they
// should; what is still to do has neither.
func TestPlanTellsWhatWasDone(t *testing.T) {
	b := sample.Begin(sample.Control(t, "lighthouse-at-dusk.yaml", 3))
	if text := paper.PlanText(b.Plan()); strings.Contains(text, "[x]") || !strings.Contains(text, "to be mixed at 38 °C") {
		t.Error("something is done before anything was")
	}
	typed := func(id, text string, how batch.How, more bool) {
		b.WorkTo(t, id)
		f, err := judge.Fact(b.Plan(), id, judge.Answer{How: how, Text: text, More: more})
		if err == nil {
			err = b.Say(f)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	typed("sea/water", "217.0", batch.Typed, false)
	typed("sea/olive", "345.1", batch.Typed, false)
	typed("sea/castor", "20", batch.Typed, true)
	if text := paper.PlanText(b.Plan()); !regexp.MustCompile(`\[ \] castor oil +53.6 g .*; 20.0 g in already`).MatchString(text) {
		t.Error("what is in already of the castor oil is not told")
	}
	typed("sea/castor", "", batch.ByEye, false)
	typed("sea/lye temperature", "36", batch.Typed, false)
	typed("sea/oil temperature", "42.5", batch.Typed, false)
	b.WorkTo(t, "pour/base/read back")
	text := paper.PlanText(b.Plan())
	// By hand, with 766 g of oils at 2.0 J/(g K) and 331 g of lye solution at some 3.6
	// (Coupland & McClements 1997 and NaOH tables, from memory): 39.7 °C.
	for _, want := range []string{
		`\[x\] Water into the lye jug +217.0 g +lye jug A, bench scale; asked 216.2\n`,
		`\[x\] olive oil +345.1 g +large pot, bench scale; asked 344.3\n`,
		`\[x\] coconut oil +214.2 g +large pot, bench scale\n`,
		`\[x\] castor oil +53.6 g .*; by eye, not weighed\n`,
		`\[ \] olive oil +497.7 g +small pot, bench scale\n`,
		`BATTER sea: .*, mixed at 39.[678] °C, wanted 38 °C\n`,
		`BATTER dusk: .*, to be mixed at 35 °C\n`,
	} {
		if !regexp.MustCompile(want).MatchString(text) {
			t.Errorf("the plan has no %s", want)
		}
	}
	for _, st := range b.Plan().Stages {
		for _, task := range st.Tasks {
			if task.ID == "sea/meet" && !strings.Contains(task.Title, b.Plan().Batters[0].MetAt.String()) {
				t.Errorf("%s, but %s in the plan", task.Title, b.Plan().Batters[0].MetAt)
			}
		}
	}
	b.Put(batch.Skipped{Task: "dusk/castor", Reason: "none left"})
	b.Put(batch.BarsWeighed{Task: "bars/loaf 1", Loaf: 1, Count: 3, Mass: 320 * quantity.Gram, Reads: quantity.Gram / 10})
	text = paper.PlanText(b.Plan())
	for _, want := range []string{`\[-\] castor oil .*; left out: none left\n`, `\[ \] Weigh the bars of loaf 1 +320.0 g .*; 3 bars\n`} {
		if !regexp.MustCompile(want).MatchString(text) {
			t.Errorf("the plan has no %s", want)
		}
	}
}

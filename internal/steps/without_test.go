package steps_test

import (
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/judge"
)

// TestWithoutAnOil: where there is no more of an oil, and the lye solution is made for all
// of them, another oil or a part of the solution brings the superfat back; both are tried
// to the end, and neither asks for the oil that is not there.
func TestWithoutAnOil(t *testing.T) {
	for _, way := range []batch.Way{batch.AddOil, batch.PourPart} {
		b := begin(harbour())
		b.workTo(t, "sea/castor")
		b.allows(t, batch.Skipped{Task: "sea/castor", Reason: "none left"})
		d, ok := deviationOf(b.plan(), "sea/castor")
		if !ok || b.plan().Batters[0].Superfat.Percent > 0 {
			t.Fatalf("castor is missing, and the superfat is %.1f", b.plan().Batters[0].Superfat.Percent)
		}
		found := false
		for _, w := range b.plan().Ways(d) {
			if w.Fact.Way != way || w.Fact.Oil == "castor" {
				continue
			}
			found = true
			b.allows(t, w.Fact)
		}
		if !found {
			t.Fatalf("%s is not offered: %s", way, offered(b.plan().Ways(d)))
		}
		if err := b.work(never); err != nil {
			t.Fatal(err)
		}
		p := b.plan()
		if is := p.Batters[0].Superfat.Percent; is < 4.9 || is > 6 {
			t.Errorf("%s: the superfat is %.2f %%, asked 5", way, is)
		}
		for _, st := range p.Stages {
			for _, task := range st.Tasks {
				if strings.HasPrefix(task.ID, "sea/castor/") || task.ID == "sea/castor" && task.Mass > 0 {
					t.Errorf("%s asks for castor: %s", way, task.ID)
				}
			}
		}
	}
}

// TestWithoutAnOilBeforeTheAlkali: alkali that is not weighed yet follows from the oils.
func TestWithoutAnOilBeforeTheAlkali(t *testing.T) {
	b := begin(harbour())
	b.finish(t, "set out")
	for _, id := range []string{"sea/shea", "sea/coconut", "sea/melt", "sea/olive"} {
		b.asked(t, id)
	}
	b.allows(t, batch.Skipped{Task: "sea/castor", Reason: "none left"})
	d, _ := deviationOf(b.plan(), "sea/castor")
	if got := offered(b.plan().Ways(d)); strings.Contains(got, string(batch.PourPart)) || strings.Count(got, string(batch.AddOil)) > 1 {
		t.Errorf("no alkali is weighed, and offered are %s", got)
	}
}

// TestGateWaitsForTheWarning: where the superfat may be below zero, the gate says so and is
// not passed before that is answered.
func TestGateWaitsForTheWarning(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/castor")
	b.allows(t, batch.Skipped{Task: "sea/castor", Reason: "none left"})
	d, _ := deviationOf(b.plan(), "sea/castor")
	if len(b.plan().Unread) == 0 || d.Task == "" {
		t.Fatal("nothing warns of free alkali")
	}
	if err := b.work(upTo("sea/meet")); err != nil {
		t.Fatal(err)
	}
	task := b.task(t, "sea/meet")
	if strings.Contains(task.Title, "they may meet now") || !strings.Contains(task.Title, "may not meet before the warning is answered") {
		t.Errorf("the gate says %q", task.Title)
	}
	if err := judge.Allows(b.plan(), batch.Ticked{Task: "sea/meet"}, b.moment()); err == nil || !strings.Contains(err.Error(), "answer that warning first") {
		t.Errorf("passed: %v", err)
	}
	b.reads()
	b.allows(t, batch.Ticked{Task: "sea/meet"})
}

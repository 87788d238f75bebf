package steps_test

import (
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/recipe"
	"bench/internal/rest"
	"bench/internal/timer"
)

// TestAnOlderBatchGoesOn: one that was cleaned up before there was more to ask
// for is not held up by it.
func TestAnOlderBatchGoesOn(t *testing.T) {
	c := harbour()
	c.Recipe.Cure = recipe.Cure{}
	b := begin(c)
	b.workTo(t, "clean up/hydroxide")
	for _, id := range []string{"hydroxide", "jugs", "wipe", "gloves"} {
		b.put(batch.Ticked{Task: "clean up/" + id})
	}
	if st, _ := b.plan().Stage("clean up"); !st.Done {
		t.Errorf("%+v", st.Tasks)
	}
	b.wait(24 * time.Hour)
	if id, _ := b.plan().Next(b.moment()); id != "unmould/loaf 1" {
		t.Errorf("next is %s", id)
	}
}

// TestMadeAnew: a batch that got 6 g of sodium hydroxide too much takes, by
// hand, A/(1 - s) more oil, and the new batch points at the old one.
func TestMadeAnew(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/sodium hydroxide")
	task := b.task(t, "sea/sodium hydroxide")
	b.put(batch.Weighed{Task: task.ID, Material: task.Material, Target: task.Target, Mass: task.Target + 6*g, Reads: task.Reads, How: batch.Typed})
	b.put(batch.WarningSeen{Batter: "sea"})
	if err := b.work(never); err != nil {
		t.Fatal(err)
	}
	b.wait(25 * time.Hour)
	b.workTo(t, "cure/bar 1")
	b.wait(43 * day)
	b.put(batch.Skipped{Task: "cure/complete", Reason: "it zaps"})
	b.put(batch.Tested{Task: "test/alkali", Test: batch.PHTest, Value: 11.8})
	hold := judge.Choices(b.plan(), "release/decide", "")[1]
	// 6 g of NaOH are 8.416 g of KOH (56.105 / 39.997); by 0.95 that is 8.859 g, and
	// with an SV of 190 mg/g (the harbour's olive oil) 46.6 g of oil.
	if !strings.Contains(hold.Why, "All of sea would take 47 g more") || !strings.Contains(hold.Why, "more Olive oil to come to a superfat of 5 %") || strings.Contains(hold.Why, "All of dusk") {
		t.Errorf("%q", hold.Why)
	}
	next := begin(harbour())
	for text, want := range map[string]batch.Reworks{
		"26K25A 900 g too much alkali": {Batch: "26K25A", Mass: 900 * g, Reason: "too much alkali"},
		"26K25A it zaps":               {Batch: "26K25A", Reason: "it zaps"},
	} {
		f, err := judge.Afterwards(next.plan())[0].With(text)
		if err != nil || f != batch.Fact(want) {
			t.Errorf("%q: %+v, %v", text, f, err)
		}
		next.allows(t, f)
	}
	if _, err := judge.Afterwards(next.plan())[0].With("26K25A"); err == nil {
		t.Error("made anew without a reason")
	}
}

// TestCutCorrectedAfterTheCure: a cut that was on a later day than was said makes a cure that
// was ticked over too short. It is open again, its days and its alarm follow, and it stands as
// a warning until it was long enough; left out with a reason it stays left out.
func TestCutCorrectedAfterTheCure(t *testing.T) {
	b := cutAll(t, harbour())
	b.wait(43 * day)
	b.allows(t, batch.TimerSeen{Timer: rest.ReadyDue})
	b.allows(t, batch.Ticked{Task: rest.WholeCure})
	if open := b.plan().Open(); len(open) != 0 || len(b.plan().Ahead(b.moment())) != 0 {
		t.Fatalf("before it is corrected: %q", open)
	}
	ticked := b.now
	later := ticked.Add(-20 * day).Format(time.DateOnly)
	for _, told := range batch.All[batch.BarsWeighed](b.state) {
		told.Fact.When = ticked.Add(-19 * day)
		b.allows(t, batch.Corrected{Seq: told.Seq, Reason: "the wrong week", With: told.Fact})
	}
	for _, told := range batch.All[batch.SetAside](b.state) {
		told.Fact.When = ticked.Add(-19 * day)
		b.put(batch.Corrected{Seq: told.Seq, Reason: "the wrong week", With: told.Fact})
	}
	for _, told := range batch.All[batch.BarsCut](b.state) {
		f, err := judge.Correct(b.plan(), b.state, told.Seq, "9 on "+later, "the wrong week")
		if err != nil {
			t.Fatal(err)
		}
		b.allows(t, f)
	}
	if task := b.task(t, rest.WholeCure); task.Done || !strings.Contains(task.Hint, "It was ticked 19 d 23 h after the cut") {
		t.Errorf("%+v", task)
	}
	b.refuses(t, batch.Ticked{Task: rest.WholeCure}, "to go")
	b.refuses(t, b.said(t, "test/alkali", "9.6"), "waits for cure")
	if open := b.plan().Open(); len(open) != 1 || !strings.Contains(open[0], "cut short: ticked 19 d 23 h") {
		t.Errorf("open: %q", open)
	}
	if ready := b.timers()[rest.ReadyDue]; ready.State(b.moment()) != timer.Running || ready.AsksAt(b.moment()).Format(time.DateOnly) != ticked.Add(22*day).Format(time.DateOnly) {
		t.Errorf("%+v", ready)
	}
	b.now = ticked.Add(22*day + 12*time.Hour)
	if ready := b.timers()[rest.ReadyDue]; ready.State(b.moment()) != timer.Due {
		t.Errorf("it was seen before its day, and counts as seen: %+v", ready)
	}
	b.allows(t, batch.Ticked{Task: rest.WholeCure})
	if open := b.plan().Open(); !b.task(t, rest.WholeCure).Done || len(open) != 0 {
		t.Errorf("open: %q", open)
	}
}

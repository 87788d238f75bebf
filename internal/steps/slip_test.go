package steps_test

import (
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/quantity"
	"bench/internal/work"
)

// at works a batch up to a task and gives it.
func at(t *testing.T, id string) (*bencher, work.Task) {
	t.Helper()
	b := begin(harbour())
	if err := b.work(func(t work.Task) bool { return t.ID == id }); err != nil {
		t.Fatal(err)
	}
	task, _, ok := b.plan().Task(id)
	if !ok {
		t.Fatalf("no task %q", id)
	}
	return b, task
}

func typed(m quantity.Mass) judge.Answer {
	return judge.Answer{How: batch.Typed, Text: m.At(quantity.Gram / 100)}
}

// More alkali than the oils can take never gets into the water, and comes right
// once the weight is.
func TestLyeHeavyIsRefused(t *testing.T) {
	b, lye := at(t, "sea/sodium hydroxide")
	if err := b.say(lye.ID, typed(lye.Target+15*g)); err != nil {
		t.Fatal(err)
	}
	err := b.say("sea/dissolve", judge.Answer{How: batch.AtTarget})
	if err == nil || !strings.Contains(err.Error(), "15.00 g less") || !strings.Contains(err.Error(), "superfat -") {
		t.Fatalf("the tipping in: %v", err)
	}
	seq := len(b.state.Entries)
	fix, err := judge.Correct(b.plan(), b.state, seq, lye.Target.At(lye.Reads), "took it out")
	if err != nil {
		t.Fatal(err)
	}
	b.put(fix)
	if err := b.say("sea/dissolve", judge.Answer{How: batch.AtTarget}); err != nil {
		t.Errorf("after the correction: %v", err)
	}
}

// TestUntaredReadingIsKeptNet: whoever types what stands on the display of a scale
// that was not tared has weighed right, and the vessel is no water.
func TestUntaredReadingIsKeptNet(t *testing.T) {
	b, water := at(t, "sea/water")
	f, err := judge.Fact(b.plan(), water.ID, typed(water.Untared()+water.Reads))
	if err != nil {
		t.Fatal(err)
	}
	if kept := f.(batch.Weighed).Mass; kept != water.Target+water.Reads {
		t.Errorf("kept %v, want %v", kept, water.Target+water.Reads)
	}
}

func TestDoubtHoldsForCorrections(t *testing.T) {
	b, oil := at(t, "sea/coconut")
	if err := b.say(oil.ID, typed(oil.Target)); err != nil {
		t.Fatal(err)
	}
	p, seq := b.plan(), len(b.state.Entries)
	for text, doubtful := range map[string]bool{oil.Target.At(g): false, "2242": true} {
		f, err := judge.Correct(p, b.state, seq, text, "read the wrong line")
		if err != nil {
			t.Fatal(err)
		}
		if got := judge.Doubt(p, f) != ""; got != doubtful {
			t.Errorf("%s: doubt %q", text, judge.Doubt(p, f))
		}
	}
}

// A scale shows what the first container brought, in a cup as in the pot.
func TestTareOfSeveralContainers(t *testing.T) {
	b, lye := at(t, "sea/sodium hydroxide")
	if err := b.say(lye.ID, judge.Answer{How: batch.Typed, Text: "70", More: true}); err != nil {
		t.Fatal(err)
	}
	now, _, _ := b.plan().Task(lye.ID)
	if want := now.Tare + lye.Target; now.Untared() != want || now.SoFar != 70*g {
		t.Errorf("not tared %s, so far %s; want %s", now.Untared(), now.SoFar, want)
	}
}

func TestByEyeKeepsWhatWasSaid(t *testing.T) {
	b, mica := at(t, "sea/sea/deep blue mica")
	if err := b.say(mica.ID, judge.Answer{How: batch.ByEye, Text: "4"}); err != nil {
		t.Fatal(err)
	}
	if now, _, _ := b.plan().Task(mica.ID); now.Mass != 4*g || !now.ByEye {
		t.Errorf("%s, by eye %v", now.Mass, now.ByEye)
	}
}

// What cools is read again, without calling it a mistake, until lye
// solution and oils have met.
func TestTemperatureIsReadAgain(t *testing.T) {
	b, lye := at(t, "sea/lye temperature")
	for _, text := range []string{"85", "36"} {
		if err := b.say(lye.ID, judge.Answer{How: batch.Typed, Text: text}); err != nil {
			t.Fatalf("%s °C: %v", text, err)
		}
	}
	if r, _ := b.state.Temperature(lye.ID); r.Fact.Temperature != 36*quantity.Degree {
		t.Errorf("%s", r.Fact.Temperature)
	}
	if err := b.work(func(t work.Task) bool { return t.ID == "sea/combine" }); err != nil {
		t.Fatal(err)
	}
	if err := b.say(lye.ID, judge.Answer{How: batch.Typed, Text: "30"}); err != nil {
		t.Errorf("the gate is passed, and nothing was poured yet: %v", err)
	}
	b.workTo(t, "sea/combine")
	b.asked(t, "sea/combine")
	if err := b.say(lye.ID, judge.Answer{How: batch.Typed, Text: "30"}); err == nil {
		t.Error("they have met, and its temperature was read again")
	}
}

// A jug that is far off is still named where it is about to be poured, in a batch of
// before, when more than went in was not refused.
func TestJugOffStandsOnThePour(t *testing.T) {
	b, jug := at(t, "sea/lye jug")
	b.put(batch.Grossed{Task: jug.ID, Vessel: jug.Vessel, Gross: jug.Target + 80*g, Tare: jug.Tare, Reads: jug.Reads})
	if pour, _, _ := b.plan().Task("sea/combine"); !strings.HasPrefix(pour.Hint, "! The jug is 80.0 g heavier") {
		t.Errorf("hint %q", pour.Hint)
	}
}

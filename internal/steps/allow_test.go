package steps_test

import (
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/quantity"
	"bench/internal/rest"
	"bench/internal/sample"
	"bench/internal/timer"
)

// refuses checks that a fact is refused with such words now.
func (b *bencher) refuses(t *testing.T, f batch.Fact, want string) {
	t.Helper()
	b.wait(30 * time.Second)
	err := judge.Allows(b.plan(), f, b.moment())
	if err == nil || !strings.Contains(err.Error(), want) {
		t.Errorf("%#v: %v; want %q", f, err, want)
	}
}

// allows checks that a fact is allowed now, and states it.
func (b *bencher) allows(t *testing.T, f batch.Fact) {
	t.Helper()
	if err := judge.Allows(b.plan(), f, b.moment()); err != nil {
		t.Errorf("%#v: %v", f, err)
		return
	}
	b.put(f)
}

// TestDoubledTick is refused in words that say when it was done.
func TestDoubledTick(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/melt")
	weighed := b.task(t, "sea/coconut")
	at := weighed.At.Wall.Format("2006-01-02 15:04")
	b.refuses(t, batch.Weighed{Task: "sea/coconut", Mass: weighed.Mass, How: batch.AtTarget}, "Coconut oil: done already, "+at)
	b.allows(t, batch.Ticked{Task: "sea/melt"})
	b.refuses(t, batch.Ticked{Task: "sea/melt"}, "done already, "+b.now.Add(-30*time.Second).Format("2006-01-02 15:04"))
	b.refuses(t, batch.Skipped{Task: "sea/melt", Reason: "no need"}, "done already")
}

// TestAlkaliIsTyped: never a tick, never by eye, never left out.
func TestAlkaliIsTyped(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/sodium hydroxide")
	task := b.task(t, "sea/sodium hydroxide")
	f := batch.Weighed{Task: task.ID, Mass: task.Target, Target: task.Target}
	for _, how := range []batch.How{batch.AtTarget, batch.ByEye, ""} {
		f.How = how
		b.refuses(t, f, "burns")
	}
	b.refuses(t, batch.Ticked{Task: task.ID}, "another kind of answer")
	b.refuses(t, batch.Skipped{Task: task.ID, Reason: "none left"}, "cannot be left out")
	f.How = batch.Typed
	b.allows(t, f)
}

// TestWeights that cannot be.
func TestWeights(t *testing.T) {
	b := begin(harbour())
	b.finish(t, "set out")
	typed := func(id string, m quantity.Mass) batch.Weighed {
		task, _, _ := b.plan().Task(id)
		return batch.Weighed{Task: id, Mass: m, How: batch.Typed, Vessel: task.Vessel}
	}
	b.refuses(t, typed("sea/shea", -1), "not below zero")
	b.refuses(t, typed("sea/shea", 2_360*g+100), "more than the bench scale carries (3000 g)") // with the pot of 640 g
	b.refuses(t, typed("sea/sea/harbour rope", 192*g), "more than the fine scale carries (200 g)")
	none := typed("sea/shea", 0)
	none.More = true
	b.refuses(t, none, "brings nothing")
	b.refuses(t, typed("sea/butter", g), `no task "sea/butter"`)
	b.allows(t, typed("sea/shea", 2_000*g))
	b.refuses(t, typed("sea/coconut", 400*g), "more than the bench scale carries") // what is in the pot counts
	b.allows(t, batch.Weighed{Task: "sea/coconut", Mass: 0, How: batch.Typed})

	b = begin(harbour())
	b.workTo(t, "sea/sea/gross")
	b.refuses(t, batch.Grossed{Task: "sea/sea/gross", Gross: 640 * g, Tare: 640 * g}, "no more than the empty vessel (640.0 g)")
	b.refuses(t, batch.Grossed{Task: "sea/sea/gross", Gross: 0, Tare: 640 * g}, "vessel included")
	b.refuses(t, typed("sea/sea/loaf 1", g), "waits for: Weigh pot 1")
	b.typed(t, "sea/sea/gross", "2463.7")
	b.refuses(t, typed("sea/sea/loaf 1", 1_823_800), "more than the vessel holds")
	b.refuses(t, typed("sea/sea/loaf 2", g), "waits for: Portion for loaf 1")
	b.allows(t, typed("sea/sea/loaf 1", 1_800_000))
	b.refuses(t, typed("sea/sea/loaf 2", 23_800), "more than the vessel holds")
	b.allows(t, typed("sea/sea/loaf 2", 23_700))
}

// TestOrderIsKept: what would be unsafe or impossible waits, and says for what.
func TestOrderIsKept(t *testing.T) {
	b := begin(harbour())
	b.refuses(t, batch.Weighed{Task: "sea/water", How: batch.AtTarget}, "waits for set out")
	b.finish(t, "set out")
	b.refuses(t, batch.Weighed{Task: "sea/sodium hydroxide", Mass: 179 * g, How: batch.Typed}, "waits for: Water into the lye jug")
	b.refuses(t, batch.Ticked{Task: "sea/dissolve"}, "waits for: sodium hydroxide")
	b.refuses(t, batch.Ticked{Task: "sea/melt"}, "waits for the hard oils")
	b.refuses(t, batch.TemperatureTaken{Task: "sea/lye temperature", Temperature: 35 * quantity.Degree}, "waits for")
	b.workTo(t, "sea/meet")
	b.refuses(t, batch.Grossed{Task: "sea/lye jug", Gross: 754 * g, Tare: 212 * g}, "waits for gate · sea")
	b.refuses(t, batch.Ticked{Task: "sea/combine"}, "waits for gate · sea")
	b.workTo(t, "sea/combine")
	b.refuses(t, batch.Ticked{Task: "sea/trace/emulsion"}, "waits for lye into oils · sea")

	b.workTo(t, "sea/embeds stay")
	b.refuses(t, batch.Ticked{Task: "sea/loaf 1/moon"}, "waits for hold · sea")
	b.workTo(t, "sea/firm")
	b.allows(t, batch.TemperatureTaken{Task: "dusk/lye temperature", Temperature: 60 * quantity.Degree}) // It cools meanwhile.
	b.refuses(t, batch.TemperatureTaken{Task: "dusk/oil temperature", Temperature: 35 * quantity.Degree}, "firm · sea")
	b.refuses(t, batch.Ticked{Task: "dusk/combine"}, "waits for gate · dusk")
	b.refuses(t, batch.Ticked{Task: "dusk/dusk/loaf 1/pour"}, "waits for")
}

// TestNextLayerWaitsForTheOneBelow, from one pot too: nothing of the next layer
// is poured before the layer below takes it.
func TestNextLayerWaitsForTheOneBelow(t *testing.T) {
	b := begin(sample.Control(t, "tide-lines.yaml", 3))
	b.workTo(t, "low water/firm")
	for _, task := range openTasks(b.plan()) {
		if strings.HasPrefix(task.ID, "tide/half tide") {
			t.Errorf("%s is open", task.ID)
		}
	}
	b.refuses(t, batch.Ticked{Task: "tide/half tide/loaf 1/pour"}, "waits for")
}

// TestUnmouldBeforeItsTimer is refused, and allowed once the timer was seen.
func TestUnmouldBeforeItsTimer(t *testing.T) {
	b := begin(harbour())
	if err := b.work(never); err != nil {
		t.Fatal(err)
	}
	b.refuses(t, batch.Ticked{Task: "unmould/loaf 1"}, "due in 23 h")
	b.allows(t, batch.TimerPutOff{Timer: rest.UnmouldDue, For: 36 * time.Hour})
	b.refuses(t, batch.Ticked{Task: "unmould/loaf 1"}, "due in 23 h")
	b.wait(24 * time.Hour)
	b.refuses(t, batch.Ticked{Task: "unmould/loaf 1"}, "put off for 11 h")
	b.allows(t, batch.TimerSeen{Timer: rest.UnmouldDue})
	b.allows(t, batch.Ticked{Task: "unmould/loaf 1"})

	b = begin(harbour())
	if err := b.work(never); err != nil {
		t.Fatal(err)
	}
	b.wait(24 * time.Hour)
	b.allows(t, batch.Ticked{Task: "unmould/loaf 2"})
}

// TestOneLoafTooSoft: a loaf that is too soft is looked at again in its own time, and the
// others leave their moulds and are cut when they would have; what is said to the timer of
// the others says nothing of it. Loaves of one look are looked at again together.
func TestOneLoafTooSoft(t *testing.T) {
	b := begin(harbour())
	if err := b.work(never); err != nil {
		t.Fatal(err)
	}
	b.wait(24 * time.Hour)
	b.allows(t, batch.UnmouldPutOff{Task: "unmould/loaf 1", For: 12 * time.Hour})
	if _, id := b.next(t); id != "unmould/loaf 2" {
		t.Errorf("next is %s", id)
	}
	b.wait(time.Minute)
	b.allows(t, batch.TimerSeen{Timer: rest.UnmouldDue})
	b.refuses(t, batch.Ticked{Task: "unmould/loaf 1"}, "put off for 11 h")
	b.allows(t, batch.Ticked{Task: "unmould/loaf 2"})
	if got := b.timers()["unmould/loaf 1"]; got.Label != "unmould loaf 1" || got.State(b.moment()) != timer.PutOff {
		t.Errorf("%+v", got)
	}
	b.allows(t, batch.UnmouldPutOff{Task: "unmould/loaf 3", For: 12 * time.Hour})
	if got := b.timers(); got["unmould/loaf 1"].Label != "unmould loaves 1 and 3" || got[rest.UnmouldDue].ID != "" {
		t.Errorf("after one look at both: %+v", got)
	}
	if stage, _ := b.next(t); stage != "cut" {
		t.Errorf("next is %s while one loaf is out and the others are soft", stage)
	}
	b.wait(12 * time.Hour)
	b.allows(t, batch.TimerSeen{Timer: "unmould/loaf 1"})
	b.allows(t, batch.Ticked{Task: "unmould/loaf 1"})
	if got := b.timers()["unmould/loaf 1"]; got.Label != "unmould loaf 3" || !got.Seen {
		t.Errorf("with its first loaf out the timer of both is %+v", got)
	}
	b.allows(t, batch.UnmouldPutOff{Task: "unmould/loaf 3", For: 12 * time.Hour})
	b.refuses(t, batch.Ticked{Task: "unmould/loaf 3"}, "put off for 11 h")
}

// TestSkip: with a reason; never alkali or water; the thermometer may be broken.
func TestSkip(t *testing.T) {
	b := begin(harbour())
	b.finish(t, "set out")
	b.refuses(t, batch.Skipped{Task: "sea/castor"}, "say why")
	b.refuses(t, batch.Skipped{Task: "sea/castor", Reason: " "}, "say why")
	b.refuses(t, batch.Skipped{Task: "sea/water", Reason: "dry"}, "cannot be left out")
	b.workTo(t, "sea/lye temperature")
	b.allows(t, batch.Skipped{Task: "sea/lye temperature", Reason: "the thermometer broke"})
	b.allows(t, batch.Skipped{Task: "sea/oil temperature", Reason: "the thermometer broke"})
	if title := b.task(t, "sea/meet").Title; title != "They may meet now" {
		t.Errorf("nothing was read, and %q", title)
	}
	b.allows(t, batch.Ticked{Task: "sea/meet"})
	b.workTo(t, "sea/sea/loaf 1")
	b.refuses(t, batch.Skipped{Task: "sea/sea/loaf 1", Reason: "no"}, "another kind of answer")
}

// TestSkippedPourIsNotPoured: a loaf that was left out shows as not poured, and
// the batch goes on.
func TestSkippedPourIsNotPoured(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/sea/loaf 3/pour")
	b.allows(t, batch.Skipped{Task: "sea/sea/loaf 3/pour", Reason: "the mould leaked"})
	loaves := b.plan().Layers[0].Loaves
	if !loaves[0].Poured || loaves[2].Poured {
		t.Errorf("%+v", loaves)
	}
	b.asked(t, "pour/sea/read back")
	if s, _ := b.plan().Stage("pour/sea"); !s.Done {
		t.Error("the batch is stuck")
	}
}

func TestClosedBatch(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/melt")
	b.refuses(t, batch.Closed{}, "say why the batch ends here")
	b.allows(t, batch.Closed{Reason: "power cut", Left: "the lye is poured off by its safety data sheet"})
	for _, f := range []batch.Fact{
		batch.Ticked{Task: "sea/melt"},
		batch.Closed{Reason: "again"},
		batch.TimerSeen{Timer: rest.UnmouldDue},
		batch.Corrected{Seq: 20, Reason: "slip", With: batch.Weighed{Task: "sea/coconut", Mass: g, How: batch.Typed}},
	} {
		b.refuses(t, f, "only notes")
	}
	b.allows(t, batch.Noted{Text: "begun again on Thursday"})
	p := b.plan()
	if _, ok := p.Next(b.moment()); ok || !p.Closed || len(openTasks(p)) > 0 {
		t.Error("a closed batch asks for something")
	}
	if len(p.Timers) > 0 {
		t.Errorf("a closed batch has timers that nobody can answer: %+v", p.Timers)
	}
}

func TestFinishedBatchCloses(t *testing.T) {
	b := begin(harbour())
	if err := b.work(never); err != nil {
		t.Fatal(err)
	}
	if b.plan().Finished() {
		t.Error("finished before the unmoulding")
	}
	b.wait(25 * time.Hour)
	if err := b.work(never); err != nil {
		t.Fatal(err)
	}
	if b.plan().Finished() {
		t.Error("finished before the cure")
	}
	b.wait(43 * 24 * time.Hour)
	if err := b.work(never); err != nil {
		t.Fatal(err)
	}
	p := b.plan()
	if _, ok := p.Next(b.moment()); ok || !p.Finished() || len(p.Timers) > 0 {
		t.Errorf("finished %v, timers %+v", p.Finished(), p.Timers)
	}
	b.allows(t, batch.Closed{})
}

func TestOtherFacts(t *testing.T) {
	b := begin(harbour())
	b.refuses(t, batch.Started{Control: harbour()}, "begun already")
	b.refuses(t, batch.Noted{Text: " \n"}, "empty")
	b.refuses(t, batch.TimerSeen{Timer: "egg"}, `no timer "egg"`)
	b.refuses(t, batch.TimerPutOff{Timer: rest.UnmouldDue}, "for how long")
	b.refuses(t, batch.TimerPutOff{Timer: rest.UnmouldDue, For: -time.Hour}, "for how long")
	b.refuses(t, nil, "not known")
}

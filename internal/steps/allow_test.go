package steps_test

import (
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/steps"
)

// refuses checks that a fact is refused with such words now.
func (b *bencher) refuses(t *testing.T, f batch.Fact, want string) {
	t.Helper()
	b.wait(30 * time.Second)
	err := b.plan().Allows(f, b.moment())
	if err == nil || !strings.Contains(err.Error(), want) {
		t.Errorf("%#v: %v; want %q", f, err, want)
	}
}

// allows checks that a fact is allowed now, and states it.
func (b *bencher) allows(t *testing.T, f batch.Fact) {
	t.Helper()
	if err := b.plan().Allows(f, b.moment()); err != nil {
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
	at := weighed.At.Wall.Format("15:04")
	b.refuses(t, batch.Weighed{Task: "sea/coconut", Mass: weighed.Mass, How: batch.AtTarget}, "Coconut oil: done already at "+at)
	b.allows(t, batch.Ticked{Task: "sea/melt"})
	b.refuses(t, batch.Ticked{Task: "sea/melt"}, "done already at "+b.now.Add(-30*time.Second).Format("15:04"))
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
	typed := func(id string, m quantity.Mass) batch.Weighed { return batch.Weighed{Task: id, Mass: m, How: batch.Typed} }
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
	b.refuses(t, batch.TemperatureTaken{Task: "dusk/lye temperature", Temperature: 35 * quantity.Degree}, "firm · sea")
	b.refuses(t, batch.Ticked{Task: "dusk/combine"}, "waits for gate · dusk")
	b.refuses(t, batch.Ticked{Task: "dusk/dusk/loaf 1/pour"}, "waits for")
}

// TestNextLayerWaitsForTheOneBelow, from one pot too: nothing of the next layer
// is poured before the layer below takes it.
func TestNextLayerWaitsForTheOneBelow(t *testing.T) {
	b := begin(builtin(t, "tide-lines.yaml", 3))
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
	b.allows(t, batch.TimerPutOff{Timer: steps.UnmouldDue, For: 36 * time.Hour})
	b.refuses(t, batch.Ticked{Task: "unmould/loaf 1"}, "due in 23 h")
	b.wait(24 * time.Hour)
	b.refuses(t, batch.Ticked{Task: "unmould/loaf 1"}, "put off for 11 h")
	b.allows(t, batch.TimerSeen{Timer: steps.UnmouldDue})
	b.allows(t, batch.Ticked{Task: "unmould/loaf 1"})

	b = begin(harbour())
	if err := b.work(never); err != nil {
		t.Fatal(err)
	}
	b.wait(24 * time.Hour)
	b.allows(t, batch.Ticked{Task: "unmould/loaf 2"})
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
	if s, _ := b.plan().Stage("pour/sea"); !s.Done {
		t.Error("the batch is stuck")
	}
}

func TestClosedBatch(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/melt")
	b.refuses(t, batch.Closed{}, "say why the batch ends here")
	b.allows(t, batch.Closed{Reason: "power cut"})
	for _, f := range []batch.Fact{
		batch.Ticked{Task: "sea/melt"},
		batch.Closed{Reason: "again"},
		batch.TimerSeen{Timer: steps.UnmouldDue},
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
	b.refuses(t, batch.TimerPutOff{Timer: steps.UnmouldDue}, "for how long")
	b.refuses(t, batch.TimerPutOff{Timer: steps.UnmouldDue, For: -time.Hour}, "for how long")
	b.refuses(t, nil, "not known")
}

// TestCorrection: needs its reason and a value; the plan follows, the first
// value stays, and a second correction names the first fact again.
func TestCorrection(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/melt")
	seq := b.task(t, "sea/coconut").Seq
	p := b.plan()
	first := p.Batters[0].Superfat.Percent

	for _, c := range []struct{ text, reason, want string }{
		{"382.8 ml", "slip", "volume"},
		{"", "slip", "nothing"},
		{"-3", "slip", "negative"},
	} {
		if _, err := p.Correct(b.state, seq, c.text, c.reason); err == nil {
			t.Errorf("%q is taken as a weight", c.text)
		}
	}
	f, err := p.Correct(b.state, seq, "352.8", " ")
	if err != nil {
		t.Fatal(err)
	}
	b.refuses(t, f, "needs its reason")
	f, err = p.Correct(b.state, seq, "352.8", "read the wrong line")
	if err != nil {
		t.Fatal(err)
	}
	b.allows(t, f)
	if got := b.task(t, "sea/coconut"); got.Mass != 352_800 || got.Target != 382_800 || got.Seq != seq {
		t.Errorf("%+v", got)
	}
	if now := b.plan().Batters[0].Superfat.Percent; now > first-2 {
		t.Errorf("30 g of coconut oil less, and the superfat went from %.2f to %.2f %%", first, now)
	}
	again, err := b.plan().Correct(b.state, seq, "372.8", "and that one was wrong too")
	if err != nil {
		t.Fatal(err)
	}
	b.allows(t, again)
	if got := b.task(t, "sea/coconut").Mass; got != 372_800 {
		t.Errorf("%v", got)
	}
	if w, ok := b.state.Entries[seq-1].Fact.(batch.Weighed); !ok || w.Mass != 382_800 {
		t.Error("the first value is gone")
	}
	last := b.state.Entries[len(b.state.Entries)-1]
	if said := b.plan().Say(last, b.state); !strings.Contains(said, "was: sea: Coconut oil 382.8 g") || !strings.Contains(said, "372.8") || !strings.Contains(said, "wrong too") {
		t.Errorf("%q", said)
	}
}

func TestCorrectionsThatCannotBe(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/sea/loaf 1")
	p := b.plan()
	alkali := b.task(t, "sea/sodium hydroxide")
	gross := b.task(t, "sea/sea/gross")
	melt := b.task(t, "sea/melt")
	for _, seq := range []int{0, -1, 1000} {
		if _, err := p.Correct(b.state, seq, "1", "slip"); err == nil {
			t.Errorf("there is no fact %d", seq)
		}
	}
	if _, err := p.Correct(b.state, melt.Seq, "1", "slip"); err == nil || !strings.Contains(err.Error(), "note") {
		t.Errorf("a tick has no value: %v", err)
	}
	b.refuses(t, batch.Corrected{Seq: gross.Seq, Reason: "slip", With: batch.Grossed{Task: gross.ID, Gross: 600 * g, Tare: 640 * g}}, "empty vessel")
	b.refuses(t, batch.Corrected{Seq: alkali.Seq, Reason: "slip", With: batch.Weighed{Task: alkali.ID, Mass: 180 * g, How: batch.ByEye}}, "burns")
	b.refuses(t, batch.Corrected{Seq: melt.Seq, Reason: "slip", With: batch.Ticked{Task: melt.ID}}, "Ticked is not a value")
	b.refuses(t, batch.Corrected{Seq: 3, Reason: "slip", With: batch.Weighed{Task: "butter"}}, "no task")
	b.refuses(t, batch.Corrected{Seq: 3, Reason: "slip"}, "no task")
	f, err := p.Correct(b.state, gross.Seq, "2463.7", "the spoon was in")
	if err != nil {
		t.Fatal(err)
	}
	b.allows(t, f)
	if got := b.task(t, "sea/sea/loaf 1").Target; got != 601_300 {
		t.Errorf("the portions do not follow: %v", got)
	}
	f, err = b.plan().Correct(b.state, b.task(t, "sea/oil temperature").Seq, "95 °F", "read in Fahrenheit")
	if err != nil {
		t.Fatal(err)
	}
	b.allows(t, f)
	if r, _ := b.state.Temperature("sea/oil temperature"); r.Fact.Temperature != 35*quantity.Degree {
		t.Errorf("%v", r.Fact.Temperature)
	}
}

// TestAnswer: what is typed becomes a fact, or an error in words.
func TestAnswer(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/shea")
	for _, c := range []struct {
		text string
		want quantity.Mass // want of 0 is an error.
	}{
		{"191.4", 191_400},
		{"191,4", 191_400},
		{" 200 ", 200 * g},
		{"0.2 kg", 200 * g},
		{"7 oz", 198_447},
		{"1,500", 0},
		{"abc", 0},
		{"", 0},
		{"191.4 ml", 0},
		{"1e9", 0},
	} {
		f, err := b.plan().Answer("sea/shea", steps.Answer{How: batch.Typed, Text: c.text})
		if c.want == 0 {
			if err == nil {
				t.Errorf("%q is taken for %v", c.text, f)
			}
			continue
		}
		w, ok := f.(batch.Weighed)
		if err != nil || !ok || w.Mass != c.want || w.Target != 191_400 || w.Scale != "bench scale" || w.Reads != g/10 || w.Vessel != "pot 1" || w.Tare != 640*g {
			t.Errorf("%q: %+v, %v", c.text, f, err)
		}
	}
	if _, err := b.plan().Answer("butter", steps.Answer{}); err == nil {
		t.Error("there is no such task")
	}
	b.workTo(t, "sea/lye temperature")
	for text, want := range map[string]quantity.Temperature{"35": 35_000, "34,5": 34_500, "95 °F": 35_000, "35 C": 35_000} {
		f, err := b.plan().Answer("sea/lye temperature", steps.Answer{How: batch.Typed, Text: text})
		if got, ok := f.(batch.TemperatureTaken); err != nil || !ok || got.Temperature != want {
			t.Errorf("%q: %+v, %v", text, f, err)
		}
	}
	for _, how := range []batch.How{batch.AtTarget, batch.ByEye} {
		if _, err := b.plan().Answer("sea/lye temperature", steps.Answer{How: how}); err == nil {
			t.Errorf("a temperature %s", how)
		}
		if _, err := b.plan().Answer("sea/lye jug", steps.Answer{How: how}); err == nil {
			t.Errorf("a gross weight %s", how)
		}
	}
}

// TestDoubt: a slip of the keyboard is asked for again; a usual deviation is not.
func TestDoubt(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/shea")
	doubt := func(id, text string, more bool) string {
		t.Helper()
		f, err := b.plan().Answer(id, steps.Answer{How: batch.Typed, Text: text, More: more})
		if err != nil {
			t.Fatal(err)
		}
		return b.plan().Doubt(f)
	}
	for text, slip := range map[string]bool{"191.4": false, "192": false, "195": false, "19.14": true, "1914": true, "291.4": true} {
		if got := doubt("sea/shea", text, false); (got != "") != slip {
			t.Errorf("%s g of 191.4: %q", text, got)
		}
	}
	if got := doubt("sea/shea", "50", true); got != "" {
		t.Errorf("a first container: %q", got)
	}
	b.workTo(t, "sea/lye temperature")
	if doubt("sea/lye temperature", "150", false) == "" || doubt("sea/lye temperature", "38", false) != "" {
		t.Error("150 °C is a slip of the keyboard, and 38 °C is not")
	}
}

// TestLookAlikeJug: the weight of the other jug is noticed, although the two
// are only 25 g apart.
func TestLookAlikeJug(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/lye jug")
	doubt := func(gross quantity.Mass) string {
		return b.plan().Doubt(batch.Grossed{Task: "sea/lye jug", Vessel: "lye jug 1", Gross: gross, Tare: 212 * g})
	}
	if got := doubt(b.task(t, "dusk/lye jug").Target); !strings.Contains(got, "nearer to lye jug 2") {
		t.Errorf("%q", got)
	}
	for _, usual := range []quantity.Mass{754_700, 753_000, 748_000} { // steam
		if got := doubt(usual); got != "" {
			t.Errorf("%v: %q", usual, got)
		}
	}
	if got := doubt(554 * g); got == "" {
		t.Error("200 g are missing, and nobody asks")
	}
}

// TestPartsOfAWeighing: what no scale carries at once is weighed in parts.
func TestPartsOfAWeighing(t *testing.T) {
	c := harbour()
	c.Scales = []recipe.Scale{{Name: "pocket scale", Reads: g / 10, Max: 300 * g}}
	b := begin(c)
	b.finish(t, "set out")
	task := b.task(t, "sea/olive")
	if task.Parts != 2 || task.Into != "pot 1" || task.SoFar != 0 { // 574.1 g at 291 g a cup
		t.Errorf("%d parts into %s, %v so far", task.Parts, task.Into, task.SoFar)
	}
	b.typed(t, "sea/olive", "574.1")
	if !b.task(t, "sea/olive").Done {
		t.Error("not done")
	}
}

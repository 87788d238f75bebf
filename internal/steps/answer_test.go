package steps_test

import (
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/say"
	"bench/internal/steps"
)

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
		if _, err := judge.Correct(p, b.state, seq, c.text, c.reason); err == nil {
			t.Errorf("%q is taken as a weight", c.text)
		}
	}
	f, err := judge.Correct(p, b.state, seq, "352.8", " ")
	if err != nil {
		t.Fatal(err)
	}
	b.refuses(t, f, "needs its reason")
	f, err = judge.Correct(p, b.state, seq, "352.8", "read the wrong line")
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
	again, err := judge.Correct(b.plan(), b.state, seq, "372.8", "and that one was wrong too")
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
	if said := say.Fact(last, b.plan(), b.state); !strings.Contains(said, "was: sea: Coconut oil 382.8 g") || !strings.Contains(said, "372.8") || !strings.Contains(said, "wrong too") {
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
		if _, err := judge.Correct(p, b.state, seq, "1", "slip"); err == nil {
			t.Errorf("there is no fact %d", seq)
		}
	}
	if _, err := judge.Correct(p, b.state, melt.Seq, "1", "slip"); err == nil || !strings.Contains(err.Error(), "no time of day") {
		t.Errorf("a tick has no value but its time: %v", err)
	}
	b.refuses(t, batch.Corrected{Seq: gross.Seq, Reason: "slip", With: batch.Grossed{Task: gross.ID, Gross: 600 * g, Tare: 640 * g}}, "empty vessel")
	b.refuses(t, batch.Corrected{Seq: alkali.Seq, Reason: "slip", With: batch.Weighed{Task: alkali.ID, Mass: 180 * g, How: batch.ByEye}}, "burns")
	b.refuses(t, batch.Corrected{Seq: melt.Seq, Reason: "slip", With: batch.Ticked{Task: melt.ID}}, "before the batch began")
	b.refuses(t, batch.Corrected{Seq: 3, Reason: "slip", With: batch.Weighed{Task: "butter"}}, "same kind")
	b.refuses(t, batch.Corrected{Seq: 3, Reason: "slip"}, "same kind")
	f, err := judge.Correct(p, b.state, gross.Seq, "2463.7", "the spoon was in")
	if err != nil {
		t.Fatal(err)
	}
	b.allows(t, f)
	if got := b.task(t, "sea/sea/loaf 1").Target; got != 601_300 {
		t.Errorf("the portions do not follow: %v", got)
	}
	f, err = judge.Correct(b.plan(), b.state, b.task(t, "sea/oil temperature").Seq, "95 °F", "read in Fahrenheit")
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
		f, err := judge.Fact(b.plan(), "sea/shea", judge.Answer{How: batch.Typed, Text: c.text})
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
	if _, err := judge.Fact(b.plan(), "butter", judge.Answer{}); err == nil {
		t.Error("there is no such task")
	}
	b.workTo(t, "sea/lye temperature")
	for text, want := range map[string]quantity.Temperature{"35": 35_000, "34,5": 34_500, "95 °F": 35_000, "35 C": 35_000} {
		f, err := judge.Fact(b.plan(), "sea/lye temperature", judge.Answer{How: batch.Typed, Text: text})
		if got, ok := f.(batch.TemperatureTaken); err != nil || !ok || got.Temperature != want {
			t.Errorf("%q: %+v, %v", text, f, err)
		}
	}
	for _, how := range []batch.How{batch.AtTarget, batch.ByEye} {
		if _, err := judge.Fact(b.plan(), "sea/lye temperature", judge.Answer{How: how}); err == nil {
			t.Errorf("a temperature %s", how)
		}
		if _, err := judge.Fact(b.plan(), "sea/lye jug", judge.Answer{How: how}); err == nil {
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
		f, err := judge.Fact(b.plan(), id, judge.Answer{How: batch.Typed, Text: text, More: more})
		if err != nil {
			t.Fatal(err)
		}
		return judge.Doubt(b.plan(), f)
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
		return judge.Doubt(b.plan(), batch.Grossed{Task: "sea/lye jug", Vessel: "lye jug 1", Gross: gross, Tare: 212 * g})
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

// TestSplitWithoutTheGross: where no scale carries the pot, or there is no time,
// the portions come from what should be in it.
func TestSplitWithoutTheGross(t *testing.T) {
	c := harbour()
	c.Scales = c.Scales[2:]
	c.Scales[0].Max = 1_500 * g
	p := steps.Of(batch.State{Control: c})
	if len(p.Warnings) != 2 || !strings.Contains(p.Warnings[0], "pot 1 weighs 2") || !strings.Contains(p.Warnings[0], "1500 g") {
		t.Errorf("%q", p.Warnings)
	}
	b := begin(harbour())
	b.workTo(t, "sea/lye jug")
	b.refuses(t, batch.Skipped{Task: "sea/lye jug", Reason: "no time"}, "tells the right jug")
	b.workTo(t, "sea/sea/gross")
	want := b.task(t, "sea/sea/loaf 1").Target
	b.allows(t, batch.Skipped{Task: "sea/sea/gross", Reason: "it seizes"})
	if task := b.task(t, "sea/sea/loaf 1"); !task.Open || task.Target != want || want == 0 {
		t.Errorf("%+v", task)
	}
	if err := b.say("sea/sea/loaf 1", judge.Answer{How: batch.ByEye}); err != nil {
		t.Error(err)
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

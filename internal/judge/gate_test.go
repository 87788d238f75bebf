package judge_test

import (
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/quantity"
	"bench/internal/sample"
	"bench/internal/say"
	"bench/internal/steps"
)

// atGate is a batch at the gate of its sea batter, with what was read there, in °C.
func atGate(t *testing.T, lye, oils quantity.Temperature) *sample.Batch {
	t.Helper()
	b := lighthouse(t)
	b.WorkTo(t, "sea/meet")
	b.Put(batch.TemperatureTaken{Task: "sea/lye temperature", Temperature: lye * quantity.Degree})
	b.Put(batch.TemperatureTaken{Task: "sea/oil temperature", Temperature: oils * quantity.Degree})
	return b
}

// TestTooHotWaits: more than 10 °C above what is wanted, or above 70 °C, lye solution and
// oils wait (common practice, no source); what must cool is what is hotter than wanted.
func TestTooHotWaits(t *testing.T) {
	meet := batch.Ticked{Task: "sea/meet"}
	for _, c := range []struct {
		lye, oils quantity.Temperature
		want      string
	}{
		{38, 38, ""},
		{45, 46, ""},
		{31, 45, ""},
		{85, 75, "let both cool, and read again (up, and type)"},
		{31, 80, "let the oils cool, and read again"},
		{85, 38, "let the lye solution cool, and read again"},
	} {
		said{c.want, meet, c.want}.on(t, atGate(t, c.lye, c.oils))
	}
	hot := sample.Control(t, "lighthouse-at-dusk.yaml", 1)
	for i := range hot.Recipe.Batters {
		hot.Recipe.Batters[i].MixAt = 65 * quantity.Degree
	}
	for warm, want := range map[quantity.Temperature]string{69: "", 72: "65 °C is wanted"} {
		b := sample.Begin(hot)
		b.WorkTo(t, "sea/meet")
		b.Put(batch.TemperatureTaken{Task: "sea/lye temperature", Temperature: warm * quantity.Degree})
		b.Put(batch.TemperatureTaken{Task: "sea/oil temperature", Temperature: warm * quantity.Degree})
		said{"planned hot", meet, want}.on(t, b)
	}
}

// TestHotAllTheSame needs the figure and a reason, and stands in the record with both; to
// let it cool is offered first, and keeps nothing.
func TestHotAllTheSame(t *testing.T) {
	b := atGate(t, 85, 75)
	list := judge.Choices(b.Plan(), "sea/meet", "")
	if len(list) != 2 || judge.Offered(list) != 0 || list[0].Fact != nil || !strings.Contains(list[0].Why, "up, and type") {
		t.Fatalf("%+v", list)
	}
	hot, _ := b.Plan().TooHot("sea")
	figure := strings.TrimSuffix(hot.Mix.String(), " °C")
	for text, want := range map[string]string{
		"":                                "in a few words",
		"the hard oils set":               "type that figure first",
		"38 the hard oils set":            "38 is not how warm they are together",
		figure:                            "why it cannot wait",
		figure + " °C":                    "why it cannot wait",
		figure + " the hard oils set":     "",
		figure + " °C, the hard oils set": "",
		strings.Replace(figure, ".", ",", 1) + "°C: the hard oils set": "",
	} {
		f, err := list[1].With(text)
		if err == nil {
			err = judge.Allows(b.Plan(), f, b.Now)
		}
		if want == "" && err != nil || want != "" && (err == nil || !strings.Contains(err.Error(), want)) {
			t.Errorf("%q: %v, want %q", text, err, want)
		}
	}
	f, _ := list[1].With(figure + " the hard oils set")
	b.Put(f)
	if words := say.Fact(b.State.Entries[len(b.State.Entries)-1], b.Plan(), b.State); !strings.Contains(words, "Mixed at "+hot.Mix.String()+", 38 °C wanted, all the same: "+figure+" the hard oils set") {
		t.Error(words)
	}
	b.WorkTo(t, "sea/combine")
	said{"all the same", batch.Ticked{Task: "sea/combine"}, ""}.on(t, b)
}

// TestPassedGateIsReadAgain until the lye solution is in the oils: then the gate waits
// for what it gives now.
func TestPassedGateIsReadAgain(t *testing.T) {
	b := lighthouse(t)
	b.WorkTo(t, "sea/combine")
	oils := batch.TemperatureTaken{Task: "sea/oil temperature", Temperature: 75 * quantity.Degree}
	said{"the oils again", oils, ""}.on(t, b)
	b.Put(oils)
	said{"the pour", batch.Ticked{Task: "sea/combine"}, "waits for gate · sea"}.on(t, b)
	said{"as it was", batch.Ticked{Task: "sea/meet"}, "let the oils cool"}.on(t, b)
	oils.Temperature = 40 * quantity.Degree
	b.Put(oils)
	b.WorkTo(t, "sea/combine")
	b.WorkTo(t, "sea/trace/emulsion")
	said{"the lye is in", oils, "done already"}.on(t, b)
}

// TestCorrectedHotIsNotPoured: a reading that was corrected after the gate was passed.
func TestCorrectedHotIsNotPoured(t *testing.T) {
	b := lighthouse(t)
	b.WorkTo(t, "sea/combine")
	b.Put(batch.Corrected{Seq: seq(t, b, "sea/oil temperature"), Reason: "misread", With: batch.TemperatureTaken{Task: "sea/oil temperature", Temperature: 83 * quantity.Degree}})
	said{"the pour", batch.Ticked{Task: "sea/combine"}, "go back to the gate (left), let the oils cool"}.on(t, b)
}

// TestReadingsBelongTogether: of two that were read more than half an hour apart the older
// one is asked for again, and the other is not.
func TestReadingsBelongTogether(t *testing.T) {
	b := lighthouse(t)
	b.WorkTo(t, "sea/meet")
	b.Wait(31 * time.Minute)
	said{"both are old", batch.Ticked{Task: "sea/meet"}, "the oils 31 min ago; read both again"}.on(t, b)
	b.Put(batch.TemperatureTaken{Task: "sea/oil temperature", Temperature: 38 * quantity.Degree})
	if id, _ := b.Plan().Next(b.Now); id != "sea/lye temperature" {
		t.Errorf("then %s is next", id)
	}
	b = lighthouse(t)
	b.WorkTo(t, "sea/meet")
	lye, _, _ := b.Plan().Task("sea/lye temperature")
	b.Now = lye.At
	b.Wait(steps.WarmFor + time.Second)
	said{"one is old", batch.Ticked{Task: "sea/meet"}, "you read the lye solution 30 min ago; read that again"}.on(t, b)
}

// TestColdTooSoon: lye solution of a third of sodium hydroxide peaks near boiling (the
// heats of solution and their sources are in internal/solution). Two minutes later it is
// not at 31 °C, and days later not at 98; what was read before counts, too.
func TestColdTooSoon(t *testing.T) {
	b := lighthouse(t)
	b.WorkTo(t, "sea/dissolve")
	b.Put(batch.Ticked{Task: "sea/dissolve"})
	took := func(c quantity.Temperature) batch.TemperatureTaken {
		return batch.TemperatureTaken{Task: "sea/lye temperature", Temperature: c * quantity.Degree}
	}
	doubts := func(c quantity.Temperature, want string) {
		t.Helper()
		if got := judge.DoubtNow(b.Plan(), took(c), b.Now); want == "" && got != "" || !strings.Contains(got, want) {
			t.Errorf("%d °C: %q, want %q", c, got, want)
		}
	}
	b.Wait(2 * time.Minute)
	doubts(31, "31 °C 2 min after it was dissolved (it can reach 108 °C")
	doubts(85, "")
	b.Wait(13 * time.Minute)
	doubts(31, "")
	b.Put(took(80))
	b.Wait(time.Minute)
	doubts(78, "")
	doubts(38, "after it was 80 °C: even in ice water")
	b.Wait(10 * time.Minute)
	doubts(38, "")
	b.Wait(43 * 24 * time.Hour)
	doubts(98, "43 d 0 h after it was 80 °C: it is hardly above 70 °C by now")
	doubts(60, "") // It may stand in a hot bath.
	if got := judge.DoubtNow(b.Plan(), batch.TemperatureTaken{Task: "sea/oil temperature", Temperature: 98 * quantity.Degree}, b.Now); got != "" {
		t.Errorf("oils are heated as one likes: %q", got)
	}
}

// TestCorrectedColdTooSoon: a corrected reading is held to when it was taken.
func TestCorrectedColdTooSoon(t *testing.T) {
	b := lighthouse(t)
	b.WorkTo(t, "sea/dissolve")
	b.Put(batch.Ticked{Task: "sea/dissolve"})
	b.Wait(time.Minute)
	b.Put(batch.TemperatureTaken{Task: "sea/lye temperature", Temperature: 91 * quantity.Degree})
	b.Wait(time.Hour)
	for c, want := range map[quantity.Temperature]string{93: "", 8: "unusual", 31: "after it was dissolved"} {
		f := batch.Corrected{Seq: len(b.State.Entries), Reason: "misread", With: batch.TemperatureTaken{Task: "sea/lye temperature", Temperature: c * quantity.Degree}}
		if got := judge.Doubt(b.Plan(), f); want == "" && got != "" || !strings.Contains(got, want) {
			t.Errorf("corrected to %d °C: %q, want %q", c, got, want)
		}
	}
}

// TestOldLyeIsNamed where it is about to meet oils, a day after it was made (common
// practice, no source).
func TestOldLyeIsNamed(t *testing.T) {
	for wait, named := range map[time.Duration]bool{time.Hour: false, 44 * 24 * time.Hour: true} {
		b := lighthouse(t)
		b.WorkTo(t, "sea/lye temperature")
		b.Wait(wait)
		b.WorkTo(t, "sea/meet")
		if meet, _, _ := b.Plan().Task("sea/meet"); strings.HasPrefix(meet.Hint, "! The lye solution was made 44 d 0 h ago") != named {
			t.Errorf("after %s: %q", wait, meet.Hint)
		}
	}
}

// TestGelDoesNotGoBack: a loaf that was seen gelling was not without gel, so that is asked
// about and kept with the answer; of another loaf it is not.
func TestGelDoesNotGoBack(t *testing.T) {
	b := sample.Begin(sample.Control(t, "lighthouse-at-dusk.yaml", 3))
	b.WorkTo(t, "gel/1 h")
	b.Put(batch.GelLooked{Task: "gel/1 h", Loaves: []int{1}, Look: batch.Rising})
	for loaf, want := range map[int]string{1: "loaf 1: rising was said of it before", 2: ""} {
		f := batch.GelLooked{Task: "gel/3 h", Loaves: []int{loaf}, Look: batch.NoGel}
		got := judge.DoubtNow(b.Plan(), f, b.Now)
		if want == "" && got != "" || !strings.Contains(got, want) {
			t.Errorf("loaf %d: %q", loaf, got)
		}
		if kept, ok := judge.Answered(f, got, "the gel is over"); !ok || batch.SaidOf(kept).Answer != "the gel is over" {
			t.Errorf("kept %+v", kept)
		}
	}
	if got := judge.DoubtNow(b.Plan(), batch.GelLooked{Task: "gel/3 h", Look: batch.FullGel}, b.Now); got != "" {
		t.Error(got)
	}
}

// TestPartIsNotPouredHot: part of a lye solution is as hot as all of it.
func TestPartIsNotPouredHot(t *testing.T) {
	b := lighthouse(t)
	b.WorkTo(t, "sea/sodium hydroxide")
	alkali, _, _ := b.Plan().Task("sea/sodium hydroxide")
	b.Put(batch.Weighed{Task: alkali.ID, Material: alkali.Material, Target: alkali.Target, Mass: alkali.Target * 103 / 100, How: batch.Typed, Reads: alkali.Reads})
	for _, w := range b.Plan().Ways(b.Plan().Deviations[0]) {
		if w.Fact.Way == batch.PourPart {
			b.Put(w.Fact)
		}
	}
	b.WorkTo(t, "sea/lye part")
	part, _, _ := b.Plan().Task("sea/lye part")
	pour := batch.Weighed{Task: part.ID, Mass: part.Target, Target: part.Target, How: batch.Typed}
	said{"as it was read", pour, ""}.on(t, b)
	b.Put(batch.Corrected{Seq: seq(t, b, "sea/oil temperature"), Reason: "misread", With: batch.TemperatureTaken{Task: "sea/oil temperature", Temperature: 83 * quantity.Degree}})
	said{"as it is", pour, "let the oils cool"}.on(t, b)
}

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
		{38, 38, ""}, {45, 46, ""}, {31, 45, ""},
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

package reply_test

import (
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/quantity"
	"bench/internal/reply"
	"bench/internal/resume"
	"bench/internal/sample"
	"bench/internal/work"
)

func at(t *testing.T, loaves int, task string) *sample.Batch {
	t.Helper()
	b := sample.Begin(sample.Control(t, "lighthouse-at-dusk.yaml", loaves))
	b.WorkTo(t, task)
	return b
}

// TestOnScale: what a scale reads before a task is held against what should stand on
// it: the cup's own 31.2 g and nothing in it, to two readings of 0.01 g. Of jugs and pots
// all that may be missing is looked for, and what was found is to be kept.
func TestOnScale(t *testing.T) {
	b := at(t, 1, "sea/sodium hydroxide")
	for text, want := range map[string]string{
		"31.20": "dry cup is as it should be.",
		"31,22": "dry cup is as it should be.",
		"31.23": "dry cup reads 31.23 and should read 31.20. u corrects an entry, w weighs a pot; enter goes on all the same.",
		"empty": "empty",
	} {
		act, so, word := reply.OnScale("A", b.Plan(), "sea/sodium hydroxide", text)
		if act != nil || so != strings.HasSuffix(want, "should be.") || !strings.Contains(word, want) {
			t.Errorf("%q: %v, %v, %q; want %q", text, act, so, word, want)
		}
	}
	if _, so, word := reply.OnScale("A", b.Plan(), "set out/protection", "12"); so || !strings.Contains(word, "Nothing is known") {
		t.Errorf("a task that is weighed nowhere: %v, %q", so, word)
	}
	for _, vessel := range []struct{ task, name string }{{"dusk/water", "lye jug B"}, {"sea/olive", "large pot"}} {
		b.WorkTo(t, vessel.task)
		s, _ := resume.OnScale(b.Plan(), vessel.task)
		for off, as := range map[quantity.Mass]bool{0: true, -60 * quantity.Gram: false} {
			act, so, word := reply.OnScale("A", b.Plan(), vessel.task, (s.Gross + off).At(s.Reads))
			keep, ok := act.(reply.Keep)
			found, kept := keep.Fact.(batch.PotWeighed)
			if so != as || !ok || !kept || word != "" || found.Vessel != vessel.name || found.Gross != s.Gross+off {
				t.Errorf("%s, %s off: %+v, %v, %q", vessel.name, off, act, so, word)
			}
		}
	}
}

// TestOnScalePouredAlready: a jug that reads as it should once the portion at hand is out
// of it is not said to be wrong: poured again it would be short for the next loaf.
func TestOnScalePouredAlready(t *testing.T) {
	b := sample.Begin(sample.Control(t, "tide-lines.yaml", 3))
	id := ""
	for _, st := range b.Plan().Stages {
		for _, task := range st.Tasks {
			if st.Kind == work.Split && task.Do == work.Portion && id == "" {
				id = task.ID
			}
		}
	}
	b.WorkTo(t, id)
	task, _, _ := b.Plan().Task(id)
	if _, err := b.Plan().PotCheck(task.Vessel, task.StopAt); err == nil {
		t.Fatalf("%s is looked into as a pot", task.Vessel)
	}
	for off, want := range map[quantity.Mass]string{0: "pour no more", -6 * quantity.Gram: "pour no more", -60 * quantity.Gram: "and should read"} {
		if _, so, word := reply.OnScale("A", b.Plan(), id, (task.StopAt + off).At(task.Reads)); so || !strings.Contains(word, want) {
			t.Errorf("%s off: %v, %q; want %q", off, so, word, want)
		}
	}
}

// TestTo: an answer is kept, refused in words, or asked about once: said again the same
// it is kept, and another is asked about anew.
func TestTo(t *testing.T) {
	b := at(t, 1, "sea/castor")
	task, _, _ := b.Plan().Task("sea/castor")
	say := func(text string, doubt *reply.Doubted) (reply.Act, *reply.Doubted, string) {
		return reply.To("A", b.Plan(), task, judge.Answer{How: batch.Typed, Text: text}, doubt, b.Now)
	}
	if act, doubt, word := say(task.Target.At(task.Reads), nil); act == nil || doubt != nil || word != "" {
		t.Errorf("as asked: %v, %v, %q", act, doubt, word)
	}
	if act, _, word := say("-3", nil); act != nil || word == "" {
		t.Errorf("below zero: %v, %q", act, word)
	}
	act, doubt, word := say("99", nil)
	if act != nil || doubt == nil || word != "" || !strings.Contains(doubt.Words, "typed 99.0") {
		t.Fatalf("a slip: %v, %+v, %q", act, doubt, word)
	}
	if act, _, _ := say("99", doubt); act == nil {
		t.Error("said twice it is not kept")
	}
	if act, again, _ := say("98", doubt); act != nil || again == nil || !strings.Contains(again.Words, "typed 98.0") {
		t.Errorf("another slip: %v, %+v", act, again)
	}
	whole := task.Untared().At(task.Reads)
	if _, doubt, _ := say(whole, nil); doubt == nil || doubt.Asks() != whole+" is the reading with the vessel: without it "+task.Target.At(task.Reads)+
		", which is what will be kept. Right? Then type "+whole+" again." {
		t.Errorf("the whole reading %s: %+v", whole, doubt)
	}
	if got := (reply.Doubted{Words: "where did it go?"}).Asks(); got != "where did it go? If it is right, type it again." {
		t.Errorf("a question is asked as %q", got)
	}
}

// TestValues: which facts hold a value, and the question for another one.
func TestValues(t *testing.T) {
	const g, tenth = quantity.Gram, quantity.Gram / 10
	b := at(t, 1, "sea/castor")
	for name, c := range map[string]struct {
		f                     batch.Fact
		correctable, measured bool
		prompt                string
	}{
		"a weight":         {batch.Weighed{Task: "sea/olive", Material: "olive oil", Target: 112 * g, Mass: 113 * g, Reads: tenth}, true, true, "olive oil, g (was 113.0, asked 112.0)"},
		"a whole weight":   {batch.Grossed{Task: "fog", Vessel: "lye jug A", Gross: 256 * g, Reads: tenth}, true, true, "lye jug A: the whole weight, vessel included, g (was 256.0)"},
		"a temperature":    {batch.TemperatureTaken{Task: "sea/lye temperature", Temperature: 35 * quantity.Degree}, true, true, "sea, lye temperature, °C (was 35 °C)"},
		"bars together":    {batch.BarsWeighed{Task: "bars/loaf 1", Count: 10, Mass: 1124 * g, Reads: g}, true, true, "bars, loaf 1 (was 10 x 1124)"},
		"one bar":          {batch.BarsWeighed{Task: "bars/loaf 1", Count: 1, Mass: 112 * g, Reads: g}, true, true, "bars, loaf 1 (was 112 g)"},
		"a number of bars": {batch.BarsCut{Task: "cut/loaf 1", Bars: 8}, true, true, "cut, loaf 1 (was 8 bars)"},
		"a pH":             {batch.Tested{Task: "test/alkali", Test: batch.PHTest, Value: 9.6}, true, true, "test, alkali (was pH 9.6)"},
		"free alkali":      {batch.Tested{Task: "test/alkali", Test: batch.FreeAlkaliTest, Value: 0.02}, true, true, "test, alkali (was 0.02 %)"},
		"a look":           {batch.Tested{Task: "test/look", Test: batch.LookTest, Words: "sound"}, false, false, ""},
		"a gel":            {batch.GelLooked{Task: "gel/1 h", Look: batch.FullGel}, true, false, "in words (was full gel)"},
		"a note":           {batch.Noted{Text: "fog"}, true, false, "in words (was fog)"},
		"a tick":           {batch.Ticked{Task: "sea/melt"}, true, false, "the time at which it was done, such as 09:40 (was 09:30)"},
		"minutes":          {batch.TimerPutOff{Timer: "unmould", For: 90 * time.Minute}, true, false, "put off for how many minutes (was 90 min)"},
		"a decision":       {batch.Decided{Task: "sea/olive"}, false, false, ""},
		"an end":           {batch.Closed{Reason: "fog"}, false, false, ""},
	} {
		if got := reply.Correctable(c.f); got != c.correctable {
			t.Errorf("%s: correctable %v", name, got)
		}
		if got := reply.Measured(c.f); got != c.measured {
			t.Errorf("%s: measured %v", name, got)
		}
		e := batch.Entry{Seq: 2, Fact: c.f}
		e.At.Wall = time.Date(2026, 3, 2, 9, 30, 0, 0, time.UTC)
		if got := reply.ValuePrompt(b.Plan(), b.State, e); c.correctable && got != c.prompt {
			t.Errorf("%s: asks %q, want %q", name, got, c.prompt)
		}
	}
}

// TestOpenAfter: the next open task of the stage comes after one that is done, and the
// task itself while another container follows.
func TestOpenAfter(t *testing.T) {
	b := at(t, 1, "sea/water")
	if got := reply.OpenAfter(b.Plan(), "sea/water"); got != "sea/water" {
		t.Errorf("after an open task: %q", got)
	}
	f, err := judge.Fact(b.Plan(), "sea/water", judge.Answer{How: batch.AtTarget})
	if err != nil || b.Say(f) != nil {
		t.Fatal(err)
	}
	next := reply.OpenAfter(b.Plan(), "sea/water")
	if task, stage, _ := b.Plan().Task(next); !task.Open || stage.Kind != work.LyeSolution {
		t.Errorf("after the water: %q", next)
	}
}

// TestNothingKnownIsNotZero: where it is not known what bars weigh, no figure is asked for.
func TestNothingKnownIsNotZero(t *testing.T) {
	if number, unit := reply.Asked(work.Task{Do: work.Bars, Reads: quantity.Gram / 10}, work.Stage{}); number+unit != "" {
		t.Errorf("asks for %q %q", number, unit)
	}
	if number, _ := reply.Asked(work.Task{Do: work.Bars, Reads: quantity.Gram / 10, Target: 106 * quantity.Gram}, work.Stage{}); number != "106.0" {
		t.Errorf("asks for %q", number)
	}
}

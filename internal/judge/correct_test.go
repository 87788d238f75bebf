package judge_test

import (
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/quantity"
)

// TestCorrect: each kind of value is typed as it was the first time, a tick is
// corrected by its time, and what the fact says besides stays.
func TestCorrect(t *testing.T) {
	b := lighthouse(t)
	for _, f := range []batch.Fact{
		batch.Noted{Text: "fog"},
		batch.Skipped{Task: "set out/scales", Reason: "set out by the keeper"},
		batch.TimerPutOff{Timer: "weigh-in/1", For: time.Hour},
		batch.TimerSeen{Timer: "weigh-in/1"},
	} {
		b.Put(f)
	}
	const noted, skipped, putOff, timerSeen = 2, 3, 4, 5
	b.WorkTo(t, "release/decide")
	for _, c := range []struct {
		what string
		seq  int
		text string
		want string // want is the value as it is told, or part of the refusal.
		no   bool
	}{
		{"a weight", seq(t, b, "sea/olive"), "113.2", "113.2 g", false},
		{"a weight of nothing", seq(t, b, "sea/olive"), "", "", true},
		{"a whole weight", seq(t, b, "sea/lye jug"), "256.1", "whole 256.1 g", false},
		{"a temperature", seq(t, b, "sea/lye temperature"), "34", "34 °C", false},
		{"the time of a tick", seq(t, b, "sea/dissolve"), "09:07", "done 09:07", false},
		{"no time", seq(t, b, "sea/dissolve"), "soon", "no time of day", true},
		{"a number of bars", seq(t, b, "cut/loaf 1"), "7", "loaf 1: 7 of 8", false},
		{"bars", seq(t, b, "bars/loaf 1"), "2 x 210", "2: 210 g", false},
		{"a leftover", seq(t, b, "clean up/leftover"), "9", "1 leftover batter: 9 g", false},
		{"a leftover of nothing typed", seq(t, b, "clean up/leftover"), " ", "type the new value", true},
		{"a weigh-in", seq(t, b, "cure/bar 1"), "104", "1: 104 g 0001-01-01 00:00", false},
		{"a test", seq(t, b, "test/alkali"), "10.9", "pH 10.9 false", false},
		{"a test that is a look", seq(t, b, "test/look"), "sound", "", true},
		{"a look at the gel", seq(t, b, "gel/1 h"), "Full gel", "full gel", false},
		{"no look", seq(t, b, "gel/1 h"), "dark", "no gel, gelling, full gel, partial gel, cracked or rising", true},
		{"a note", noted, "mist", "mist", false},
		{"a note of nothing", noted, " ", "type the new value", true},
		{"a reason", skipped, "by the mate", "by the mate", false},
		{"minutes", putOff, "90 min", "1h30m0s", false},
		{"no minutes", putOff, "0", "no number of minutes", true},
		{"a timer that was seen", timerSeen, "fog", "holds no value", true},
		{"none of them", 1000, "1", "no fact 1000", true},
	} {
		f, err := judge.Correct(b.Plan(), b.State, c.seq, c.text, "misread")
		if err != nil || c.no {
			if !c.no || err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("%s: %v, %v; want %q", c.what, f, err, c.want)
			}
			continue
		}
		kept := f.(batch.Corrected)
		if got := inWords(kept.With); got != c.want || kept.Seq != c.seq || kept.Reason != "misread" {
			t.Errorf("%s: %q of %d, want %q", c.what, got, kept.Seq, c.want)
		}
		if !batch.Alike(kept.With, b.State.Entries[c.seq-1].Fact) {
			t.Errorf("%s: %+v is of another kind, or about something else", c.what, kept.With)
		}
	}
}

// inWords is held, with facts that are said in words.
func inWords(f batch.Fact) string {
	switch f := f.(type) {
	case batch.Noted:
		return f.Text
	case batch.Skipped:
		return f.Reason
	case batch.TimerPutOff:
		return f.For.String()
	case batch.GelLooked:
		return string(f.Look)
	default:
		return held(f)
	}
}

// TestCorrectedDay: a day that is typed with the new value takes the place of the first;
// without one that stays.
func TestCorrectedDay(t *testing.T) {
	b := lighthouse(t)
	b.WorkTo(t, "cure/bar 1")
	b.Wait(7 * 24 * time.Hour)
	b.Put(batch.WeighedIn{Task: "cure/bar 1", Bar: "1", Mass: 104 * g, Reads: g / 10, Said: on(2)})
	weighed := len(b.State.Entries)
	for _, c := range []struct {
		seq  int
		text string
		want time.Time
	}{
		{weighed, "103 on 2026-03-05", on(3).When},
		{weighed, "103", on(2).When},
		{seq(t, b, "cut/loaf 1"), "7 on 2026-03-04", on(2).When},
		{seq(t, b, "cut/ends"), "9 on 2026-03-04", on(2).When},
		{seq(t, b, "bars/loaf 1"), "8 x 840 on 2026-03-04 10:00", on(2).When.Add(-2 * time.Hour)},
	} {
		f, err := judge.Correct(b.Plan(), b.State, c.seq, c.text, "misread")
		if err != nil {
			t.Fatal(err)
		}
		if got := batch.SaidOf(f.(batch.Corrected).With).When; !got.Equal(c.want) {
			t.Errorf("%s: %v, want %v", c.text, got, c.want)
		}
	}
}

// TestCorrectionStandsAlone: what is corrected is not counted beside its correction. Ten
// bars of a loaf that holds some 1.1 kg weigh a kilogram once, and not twice; the first of
// two weigh-ins is held to the one after it.
func TestCorrectionStandsAlone(t *testing.T) {
	b := lighthouse(t)
	b.WorkTo(t, "bars/loaf 1")
	loaf := b.Plan().Poured().Loaves[0]
	b.Put(batch.BarsWeighed{Task: "bars/loaf 1", Loaf: 1, Count: 8, Mass: loaf * 8 / 10, Reads: g / 10})
	n := len(b.State.Entries)
	doubt := func(seq int, text string) string {
		f, err := judge.Correct(b.Plan(), b.State, seq, text, "misread")
		if err != nil {
			t.Fatal(err)
		}
		return judge.Doubt(b.Plan(), f)
	}
	if got := doubt(n, "8 x "+(loaf*85/100).At(g)); got != "" {
		t.Errorf("%q", got)
	}
	if got := doubt(n, "8 x "+(loaf*11/10).At(g)); !strings.Contains(got, "together the bars weigh") {
		t.Errorf("%q", got)
	}
	b.WorkTo(t, "cure/bar 1")
	weigh := func(m quantity.Mass) int {
		b.Put(batch.WeighedIn{Task: "cure/bar 1", Bar: "1", Mass: m, Reads: g / 10})
		b.Wait(7 * 24 * time.Hour)
		return len(b.State.Entries)
	}
	first, second := weigh(104*g), weigh(99*g)
	for _, c := range []struct {
		seq        int
		text, want string
	}{
		{first, "105", ""}, {first, "98", "99.0 g after it"}, {second, "103", ""}, {second, "105", "104.0 g before"}, {second, "70", "is it the same bar?"},
	} {
		if got := doubt(c.seq, c.text); c.want == "" && got != "" || !strings.Contains(got, c.want) {
			t.Errorf("%s of %d: %q, want %q", c.text, c.seq, got, c.want)
		}
	}
}

package judge_test

import (
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/judge"
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

package timer_test

import (
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"bench/internal/timer"
)

// TestClockJumps holds the words about a timer of a day to what is true: how
// long it has really been, whatever was done to the wall clock meanwhile.
func TestClockJumps(t *testing.T) {
	// The night in which Lisbon's clocks go forward: at 01:00 it is 02:00.
	winter, summer := time.FixedZone("WET", 0), time.FixedZone("WEST", 3600)
	start := timer.Moment{Wall: time.Date(2026, time.March, 28, 20, 0, 0, 0, winter), Boot: "one", SinceBoot: time.Hour}
	day := timer.Timer{ID: "unmould", Label: "unmould", Start: start, After: 24 * time.Hour}
	watch := timer.Timer{ID: "cooling", Label: "cooling", Start: start}
	// after gives the moment so much later by the boot clock, with the wall so
	// far off.
	after := func(d, off time.Duration) timer.Moment {
		return timer.Moment{Wall: start.Wall.Add(d + off), Boot: "one", SinceBoot: start.SinceBoot + d}
	}
	month := 31 * 24 * time.Hour
	for name, c := range map[string]struct {
		now       timer.Moment
		day, runs string
	}{
		"nothing happens":         {after(3*time.Hour, 0), "in 21 h 00 min", "for 3 h 00 min"},
		"an hour on":              {after(3*time.Hour, time.Hour), "in 21 h 00 min", "for 3 h 00 min"},
		"an hour back":            {after(3*time.Hour, -time.Hour), "in 21 h 00 min", "for 3 h 00 min"},
		"back before the start":   {after(3*time.Hour, -9*time.Hour), "in 21 h 00 min", "for 3 h 00 min"},
		"a month off":             {after(3*time.Hour, month), "in 21 h 00 min", "for 3 h 00 min"},
		"a month off and back":    {after(4*time.Hour, 0), "in 20 h 00 min", "for 4 h 00 min"},
		"back to 1970":            {timer.Moment{Wall: time.Unix(0, 0), Boot: "one", SinceBoot: 4 * time.Hour}, "in 21 h 00 min", "for 3 h 00 min"},
		"summer time begins":      {timer.Moment{Wall: start.Wall.Add(8 * time.Hour).In(summer), Boot: "one", SinceBoot: 9 * time.Hour}, "in 16 h 00 min", "for 8 h 00 min"},
		"summer time, other boot": {timer.Moment{Wall: start.Wall.Add(8 * time.Hour).In(summer), Boot: "two"}, "in 16 h 00 min", "for 8 h 00 min"},
		"another zone":            {timer.Moment{Wall: start.Wall.Add(2 * time.Hour).In(time.FixedZone("", -5*3600)), Boot: "one", SinceBoot: 3 * time.Hour}, "in 22 h 00 min", "for 2 h 00 min"},
		"suspended for 9 h":       {after(9*time.Hour, 0), "in 15 h 00 min", "for 9 h 00 min"},
		"suspended too long":      {after(33*time.Hour, 0), "late by 9 h 00 min", "for 33 h 00 min"},
		"restarted":               {timer.Moment{Wall: start.Wall.Add(30 * time.Hour), Boot: "two", SinceBoot: time.Minute}, "late by 6 h 00 min", "for 30 h 00 min"},
		// Nobody can know here; it is never less than nothing.
		"restarted, set back": {timer.Moment{Wall: start.Wall.Add(-month), Boot: "two"}, "in 24 h 00 min", "for 0 s"},
	} {
		if got := day.Say(c.now); got != c.day {
			t.Errorf("%s: the timer is said to be due %q, want %q", name, got, c.day)
		}
		if got := watch.Say(c.now); got != c.runs {
			t.Errorf("%s: the stopwatch is said to run %q, want %q", name, got, c.runs)
		}
	}
}

// TestPutOffThroughJumps: what was put off for an hour comes back after an hour,
// by the same clock.
func TestPutOffThroughJumps(t *testing.T) {
	at := func(d, off time.Duration) timer.Moment {
		return timer.Moment{Wall: time.Date(2026, time.October, 25, 0, 30, 0, 0, time.UTC).Add(d + off), Boot: "one", SinceBoot: d}
	}
	x := timer.Timer{Start: at(0, 0), After: time.Hour, Deferred: at(time.Hour, 0), DeferFor: time.Hour}
	for _, off := range []time.Duration{0, time.Hour, -time.Hour, 720 * time.Hour} {
		if got := x.Say(at(90*time.Minute, off)); got != "put off for 30 min" {
			t.Errorf("%v off: %q", off, got)
		}
		if got := x.Say(at(2*time.Hour, off)); got != "due now" {
			t.Errorf("%v off: %q", off, got)
		}
	}
}

// Whatever the clocks say, no time is negative, and the words have no minus.
func TestNoNegativeTimes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		moment := func(name string) timer.Moment {
			return timer.Moment{
				Wall:      time.Unix(rapid.Int64Range(0, 4e9).Draw(t, name), 0),
				Boot:      rapid.SampledFrom([]string{"", "one", "two"}).Draw(t, name+" boot"),
				SinceBoot: time.Duration(rapid.Int64Range(0, 1e17).Draw(t, name+" since")),
			}
		}
		start, now := moment("start"), moment("now")
		if gone, _ := now.Since(start); gone < 0 {
			t.Fatalf("%v since", gone)
		}
		x := timer.Timer{Start: start, After: time.Duration(rapid.Int64Range(0, 1e15).Draw(t, "after"))}
		if words := x.Say(now); strings.Contains(words, "-") {
			t.Fatalf("%q", words)
		}
		if change, ok := timer.NextChange([]timer.Timer{x}, now, time.Second); ok && change <= 0 {
			t.Fatalf("the next change is in %v", change)
		}
	})
}

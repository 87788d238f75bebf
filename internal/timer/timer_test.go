package timer_test

import (
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"bench/internal/timer"
)

var start = time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC)

// after is a moment of the first boot, so long after the start.
func after(d time.Duration) timer.Moment {
	return timer.Moment{Wall: start.Add(d), Boot: "one", SinceBoot: time.Hour + d}
}

func TestWords(t *testing.T) {
	for _, c := range []struct {
		d    time.Duration
		want string
	}{
		{0, "0 s"},
		{999 * time.Millisecond, "0 s"},
		{119 * time.Second, "119 s"},
		{2 * time.Minute, "2 min"},
		{5*time.Minute - time.Nanosecond, "4 min"},
		{5 * time.Minute, "5 min"},
		{2*time.Hour - time.Second, "119 min"},
		{2 * time.Hour, "2 h 00 min"},
		{24*time.Hour + 5*time.Minute, "24 h 05 min"},
		{48 * time.Hour, "2 d 0 h"},
		{75*time.Hour + 59*time.Minute, "3 d 3 h"},
		{-3*time.Hour - 10*time.Minute, "3 h 10 min"},
	} {
		if got := timer.Words(c.d); got != c.want {
			t.Errorf("%v is %q, want %q", c.d, got, c.want)
		}
	}
}

// TestStates: the states of an alarm, and what each says.
func TestStates(t *testing.T) {
	unmould := timer.Timer{ID: "unmould", Start: after(0), After: 24 * time.Hour}
	putOff := unmould
	putOff.Deferred, putOff.DeferFor = after(24*time.Hour+time.Minute), 12*time.Hour
	seen := unmould
	seen.Seen = true
	for _, c := range []struct {
		name string
		t    timer.Timer
		at   time.Duration
		want timer.State
		say  string
	}{
		{"just begun", unmould, 0, timer.Running, "in 24 h 00 min"},
		{"a second before", unmould, 24*time.Hour - time.Second, timer.Running, "in 1 s"},
		{"on the dot", unmould, 24 * time.Hour, timer.Due, "due now"},
		{"late", unmould, 27*time.Hour + 10*time.Minute, timer.Due, "late by 3 h 10 min"},
		{"put off", putOff, 25 * time.Hour, timer.PutOff, "put off for 11 h 01 min"},
		{"back again", putOff, 36*time.Hour + time.Minute, timer.Due, "due now"},
		{"late again", putOff, 38*time.Hour + time.Minute, timer.Due, "late by 2 h 00 min"},
		{"put off before it is due counts for nothing then", putOff, time.Hour, timer.Running, "in 23 h 00 min"},
		{"seen early", seen, time.Hour, timer.Acknowledged, "seen"},
		{"seen late", seen, 30 * time.Hour, timer.Acknowledged, "seen"},
		{"a stopwatch", timer.Timer{Start: after(0)}, 4*time.Minute + 59*time.Second, timer.Running, "for 4 min"},
		{"a stopwatch never falls due", timer.Timer{Start: after(0)}, 100 * time.Hour, timer.Running, "for 4 d 4 h"},
	} {
		now := after(c.at)
		if got := c.t.State(now); got != c.want {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
		if got := c.t.Say(now); got != c.say {
			t.Errorf("%s: %q, want %q", c.name, got, c.say)
		}
	}
	for s, want := range map[timer.State]string{
		timer.Running: "running", timer.Due: "due", timer.PutOff: "put off", timer.Acknowledged: "seen", 9: "unknown",
	} {
		if s.String() != want {
			t.Errorf("state %d is %q, want %q", s, s, want)
		}
	}
}

// TestSince: one boot is measured by its own clock, whatever the wall says; two
// boots by the wall; and a clock that was set back takes nothing away.
func TestSince(t *testing.T) {
	from := after(0)
	for _, c := range []struct {
		name   string
		now    timer.Moment
		want   time.Duration
		byBoot bool
	}{
		{"same boot", after(time.Hour), time.Hour, true},
		{"same boot, wall set forward a day", timer.Moment{Wall: start.Add(25 * time.Hour), Boot: "one", SinceBoot: 2 * time.Hour}, time.Hour, true},
		{"same boot, wall set back a day", timer.Moment{Wall: start.Add(-23 * time.Hour), Boot: "one", SinceBoot: 2 * time.Hour}, time.Hour, true},
		{"other boot", timer.Moment{Wall: start.Add(3 * time.Hour), Boot: "two", SinceBoot: time.Minute}, 3 * time.Hour, false},
		{"other boot, other zone", timer.Moment{Wall: start.Add(3 * time.Hour).In(time.FixedZone("", 3600)), Boot: "two"}, 3 * time.Hour, false},
		{"other boot, wall set back", timer.Moment{Wall: start.Add(-time.Hour), Boot: "two", SinceBoot: time.Minute}, 0, false},
		{"no boot known", timer.Moment{Wall: start.Add(time.Minute)}, time.Minute, false},
	} {
		got, byBoot := c.now.Since(from)
		if got != c.want || byBoot != c.byBoot {
			t.Errorf("%s: %v, by boot %v", c.name, got, byBoot)
		}
	}
	if !(timer.Moment{}).IsZero() || from.IsZero() {
		t.Error("only the moment that was never set is zero")
	}
}

// TestDueAt: the wall time at which it falls due is told by today's clock, so
// that one set forward an hour since moves what is shown, not the deadline.
func TestDueAt(t *testing.T) {
	unmould := timer.Timer{Start: after(0), After: 24 * time.Hour}
	now := timer.Moment{Wall: start.Add(3 * time.Hour), Boot: "one", SinceBoot: 3 * time.Hour}
	if got, want := unmould.DueAt(now), start.Add(25*time.Hour); !got.Equal(want) {
		t.Errorf("due at %v, want %v", got, want)
	}
}

// drawTimer gives a timer that began within the last two days.
func drawTimer(t *rapid.T) timer.Timer {
	length := func(most time.Duration) *rapid.Generator[time.Duration] {
		return rapid.Custom(func(t *rapid.T) time.Duration {
			return time.Duration(rapid.Int64Range(0, int64(most)).Draw(t, "length"))
		})
	}
	tm := timer.Timer{Start: after(0), After: length(30*time.Hour).Draw(t, "after"), Seen: rapid.IntRange(0, 9).Draw(t, "seen") == 0}
	if rapid.Bool().Draw(t, "deferred") {
		tm.Deferred = after(length(40*time.Hour).Draw(t, "when"))
		tm.DeferFor = length(5*time.Hour).Draw(t, "for")
	}
	return tm
}

// TestNextChange: what is said stays until the change foretold, and then is
// something else.
func TestNextChange(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tm := drawTimer(t)
		said, _ := tm.Deferred.Since(tm.Start) // Nothing is said in the future.
		gone := max(said, time.Duration(rapid.Int64Range(0, int64(48*time.Hour)).Draw(t, "gone")))
		step := rapid.SampledFrom([]time.Duration{time.Second, time.Minute}).Draw(t, "step")
		now := after(gone)
		wait, ok := timer.NextChange([]timer.Timer{tm}, now, step)
		if ok != !tm.Seen {
			t.Fatalf("found %v for a timer seen %v", ok, tm.Seen)
		}
		if !ok {
			return
		}
		if wait <= 0 || wait > step {
			t.Fatalf("wait of %v at a step of %v", wait, step)
		}
		before := after(gone + time.Duration(rapid.Int64Range(0, int64(wait)-1).Draw(t, "before")))
		if tm.State(before) != tm.State(now) {
			t.Fatalf("%v after %v although nothing was to change for %v", tm.State(before), tm.State(now), wait)
		}
		words := tm.Say(now)
		if step == time.Minute && strings.HasSuffix(words, " s") {
			return // Seconds are not followed at this step.
		}
		if tm.Say(before) != words {
			t.Fatalf("%q became %q although nothing was to change for %v", words, tm.Say(before), wait)
		}
		unit := map[time.Duration]string{time.Second: " s", time.Minute: " min"}[step]
		if later := after(gone + wait); strings.HasSuffix(words, unit) && tm.Say(later) == words {
			t.Fatalf("%q stayed %q after %v", words, tm.Say(later), wait)
		}
	})
}

// TestNextChangeOfMany is that of the first of them.
func TestNextChangeOfMany(t *testing.T) {
	if _, ok := timer.NextChange(nil, after(0), time.Second); ok {
		t.Error("nothing changes where there is nothing")
	}
	soon := timer.Timer{Start: after(0), After: 10*time.Second + 250*time.Millisecond}
	watch := timer.Timer{Start: after(0)}
	if wait, _ := timer.NextChange([]timer.Timer{watch, soon}, after(0), time.Minute); wait != 10*time.Second+250*time.Millisecond {
		t.Errorf("the first change is after %v", wait)
	}
}

// TestNextChangeToTheMinute: each kind of timer, where its words turn over.
func TestNextChangeToTheMinute(t *testing.T) {
	hour := timer.Timer{Start: after(0), After: time.Hour}
	off := timer.Timer{Start: after(0), After: time.Minute, Deferred: after(2*time.Minute + 30*time.Second), DeferFor: 10 * time.Minute}
	for _, c := range []struct {
		name       string
		t          timer.Timer
		gone, wait time.Duration
		now, then  string
	}{
		{"runs, on the minute", hour, 10 * time.Minute, time.Second, "in 50 min", "in 49 min"},
		{"runs, between", hour, 10*time.Minute + 30*time.Second, 31 * time.Second, "in 49 min", "in 48 min"},
		{"falls due", hour, 59*time.Minute + 30*time.Second, 30 * time.Second, "in 30 s", "due now"},
		{"late", hour, 65*time.Minute + 20*time.Second, 40 * time.Second, "late by 5 min", "late by 6 min"},
		{"put off, by its own minutes", off, 3*time.Minute + 10*time.Second, 20*time.Second + 1, "put off for 9 min", "put off for 8 min"},
		{"comes back", off, 12*time.Minute + 10*time.Second, 20 * time.Second, "put off for 20 s", "due now"},
		{"counts up", timer.Timer{Start: after(0)}, 4*time.Minute + 15*time.Second, 45 * time.Second, "for 4 min", "for 5 min"},
	} {
		wait, ok := timer.NextChange([]timer.Timer{c.t}, after(c.gone), time.Minute)
		if now, then := c.t.Say(after(c.gone)), c.t.Say(after(c.gone+c.wait)); !ok || wait != c.wait || now != c.now || then != c.then {
			t.Errorf("%s: %q, and after %v %q", c.name, now, wait, then)
		}
	}
}

// TestPresses: what is over by then is no longer lost in minutes.
func TestPresses(t *testing.T) {
	gel := timer.Timer{Start: after(0), After: time.Hour, Priority: timer.ActNow, Presses: 6 * time.Hour}
	for at, want := range map[time.Duration]timer.Priority{
		0: timer.ActNow, time.Hour: timer.ActNow, 7*time.Hour - 1: timer.ActNow, 7 * time.Hour: timer.Soon, 30 * time.Hour: timer.Soon,
	} {
		if got := gel.PriorityAt(after(at)); got != want {
			t.Errorf("after %v: %v, want %v", at, got, want)
		}
	}
	gel.Priority = timer.Later
	if got := gel.PriorityAt(after(30 * time.Hour)); got != timer.Later {
		t.Errorf("what was only listed became %v", got)
	}
}

package timer_test

import (
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"bench/internal/timer"
)

// TestSounds holds each priority to its rate: the first until it is answered,
// the second three times, the last not at all.
func TestSounds(t *testing.T) {
	for _, c := range []struct {
		p     timer.Priority
		after time.Duration
		want  int
	}{
		{timer.ActNow, 0, 1},
		{timer.ActNow, 9999 * time.Millisecond, 1},
		{timer.ActNow, 10 * time.Second, 2},
		{timer.ActNow, time.Hour, 361},
		{timer.Soon, 0, 1},
		{timer.Soon, 59 * time.Second, 1},
		{timer.Soon, time.Minute, 2},
		{timer.Soon, 2 * time.Minute, 3},
		{timer.Soon, 48 * time.Hour, 3},
		{timer.Later, 0, 0},
		{timer.Later, 48 * time.Hour, 0},
	} {
		if got := c.p.Sounds(c.after); got != c.want {
			t.Errorf("%v, asking for %v: sounded %d times, want %d", c.p, c.after, got, c.want)
		}
	}
}

// The next sound is where the count goes up by one, and not before.
func TestNextSound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := timer.Priority(rapid.IntRange(0, 2).Draw(t, "priority"))
		asking := time.Duration(rapid.Int64Range(0, int64(time.Hour)).Draw(t, "asking"))
		next, sounds := p.NextSound(asking)
		if !sounds {
			if p.Sounds(asking) != p.Sounds(asking+24*time.Hour) {
				t.Fatal("it sounds again all the same")
			}
			return
		}
		if before, then := p.Sounds(asking+next-1), p.Sounds(asking+next); before != p.Sounds(asking) || then != before+1 {
			t.Fatalf("%d sounds, %d just before %v, %d then", p.Sounds(asking), before, next, then)
		}
	})
}

// TestAsking counts from when the timer fell due, or came back.
func TestAsking(t *testing.T) {
	at := func(d time.Duration) timer.Moment {
		return timer.Moment{Wall: time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC).Add(d), Boot: "one", SinceBoot: d}
	}
	x := timer.Timer{Start: at(0), After: time.Hour}
	if got := x.Asking(at(61 * time.Minute)); got != time.Minute {
		t.Errorf("due: %v", got)
	}
	x.Deferred, x.DeferFor = at(62*time.Minute), 5*time.Minute
	if got := x.Asking(at(67*time.Minute + time.Second)); got != time.Second {
		t.Errorf("came back: %v", got)
	}
}

// TestHours goes by the clock on the wall, over midnight and through the nights
// on which it is moved.
func TestHours(t *testing.T) {
	h, err := timer.ParseHours("22:00 to 7:00")
	if err != nil || h.String() != "22:00 to 7:00" {
		t.Fatal(h, err)
	}
	berlin, err := time.LoadLocation("Europe/Berlin")
	if err != nil {
		t.Skip(err) // No zone table here.
	}
	var quiet []int
	for hour := range 24 {
		if h.Covers(time.Date(2026, time.October, 25, hour, 59, 0, 0, berlin)) {
			quiet = append(quiet, hour)
		}
	}
	if want := []int{0, 1, 2, 3, 4, 5, 6, 22, 23}; !slices.Equal(quiet, want) {
		t.Errorf("quiet at %v, want %v", quiet, want)
	}
	if h.Covers(time.Date(2026, 3, 2, 7, 0, 0, 0, berlin)) || !h.Covers(time.Date(2026, 3, 2, 22, 0, 0, 0, berlin)) {
		t.Error("the ends are wrong")
	}
	day, _ := timer.ParseHours("13:00 to 14:30")
	if day.Covers(time.Date(2026, 3, 2, 12, 59, 0, 0, berlin)) || !day.Covers(time.Date(2026, 3, 2, 14, 29, 0, 0, berlin)) || day.Covers(time.Date(2026, 3, 2, 14, 30, 0, 0, berlin)) {
		t.Error("hours within a day are wrong")
	}
	if (timer.Hours{}).Covers(time.Date(2026, 3, 2, 0, 0, 0, 0, berlin)) {
		t.Error("none covers midnight")
	}
	for _, bad := range []string{"", "22:00", "22:00 to", "24:00 to 7:00", "22 to 7", "7:00 to 07:00", "night"} {
		if h, err := timer.ParseHours(bad); err == nil {
			t.Errorf("%q is %v", bad, h)
		}
	}
}

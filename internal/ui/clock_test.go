package ui

import (
	"slices"
	"strings"
	"testing"
	"time"
	_ "time/tzdata" // Zones as they are in books, whatever the machine has.

	"bench/internal/memory"
	"bench/internal/timer"
)

// TestClockIsSet sets the wall clock in the middle of a batch: the countdown on
// the screen goes on as it was, and after a suspend it tells the truth.
func TestClockIsSet(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("dusk/shea")
	p.looks(50*time.Second).sees("look at base", "in 4 min")
	for _, skew := range []time.Duration{time.Hour, -time.Hour, 31 * 24 * time.Hour, -31 * 24 * time.Hour, 0} {
		p.skew = skew
		p.looks(0).sees("look at base", "in 4 min").seesNot("in -", "for -", "!! look at base")
	}
	p.skew = -time.Hour // Facts said meanwhile keep their order.
	p.press(" ")
	entries := p.store.Entries["26K25A"]
	for i, e := range entries {
		if e.Seq != i+1 {
			t.Errorf("fact %d has the number %d", i+1, e.Seq)
		}
	}
	last := len(entries) - 1
	if got := p.m.bench.State.Entries; len(got) != last+1 || got[last].Fact != entries[last].Fact {
		t.Errorf("the screen has %d facts in another order", len(got))
	}
	p.skew = 0
	p.looks(9*time.Hour).sees("!! look at base", "late by 8 h") // The lid was closed.
}

// TestClocksGoForward follows a wait over the night in which Lisbon's clocks go
// from 01:00 to 02:00 (29 March 2026, IANA Time Zone Database): how long it has
// been does not jump, and the hour at which it ends is one that exists.
func TestClocksGoForward(t *testing.T) {
	lisbon, err := time.LoadLocation("Europe/Lisbon")
	if err != nil {
		t.Fatal(err)
	}
	p := arrives(t, memory.New())
	p.clock = time.Date(2026, time.March, 29, 0, 50, 0, 0, lisbon)
	p.m.deps.Location, p.m.home.At = lisbon, lisbon
	p.press("enter", "enter").works("dusk/shea")
	began := p.looking().Start.Wall
	due := began.Add(5 * time.Minute)
	p.looks(50*time.Second).sees("look at base", "in 4 min", due.In(lisbon).Format("15:04"))
	p.clock = began.Add(5*time.Minute - time.Second)
	p.looks(0).seesNot("late by", "in 1 h")
	p.press("a").clock = time.Date(2026, time.March, 29, 1, 5, 0, 0, time.UTC) // 02:05 there.
	p.looks(0).sees("02:05").seesNot("01:05", "1 h ", "in -", "late by 1 h")
	p.press("n").types("spring").press("enter").sees("02:05  note: spring")
}

// TestAnotherZone takes a batch to where the clocks show something else: how long
// it still is stays, and the hour is the one on the wall there.
func TestAnotherZone(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("dusk/shea")
	p.looks(50*time.Second).sees("look at base", "in 4 min")
	azores := time.FixedZone("", -3600)
	p.m.deps.Location = azores
	p.press("esc", "enter", "enter") // Opened again there.
	left := p.looking().DueAt(p.moment())
	p.looks(10*time.Second).sees("look at base", "in 3 min", left.In(azores).Format("15:04"))
}

// TestRestartedMachine opens a batch after the machine was started anew, at the
// true time and with its clock set back: it is late, or nobody knows; it is never
// to come by more than it was, and no time is below zero.
func TestRestartedMachine(t *testing.T) {
	for skew, words := range map[time.Duration]string{2 * time.Hour: "late by 2 h 5", -24 * time.Hour: "in 5 min"} {
		store := memory.New()
		arrives(t, store).starts().works("dusk/shea").press("esc")
		p := arrives(t, store)
		at := timer.Moment{Wall: p.clock.Add(skew + time.Hour), Boot: "boot-2", SinceBoot: time.Minute}
		p.m.deps.Now = func() timer.Moment { at.Wall = at.Wall.Add(time.Second); at.SinceBoot += time.Second; return at }
		p.press("enter", "enter").sees("look at base", words).seesNot("in -", "for -", "late by -")
	}
}

// looking gives the timer of the next look at what sets.
func (p *person) looking() timer.Timer {
	p.t.Helper()
	timers := p.m.bench.Plan.Timers
	at := slices.IndexFunc(timers, func(t timer.Timer) bool { return strings.HasPrefix(t.ID, "look/") })
	if at < 0 {
		p.t.Fatal("nothing sets")
	}
	return timers[at]
}

package ui

import (
	"testing"
	"time"
)

// TestClockIsSet sets the wall clock in the middle of a batch: the countdown on
// the screen goes on as it was, and after a suspend it tells the truth.
func TestClockIsSet(t *testing.T) {
	p := arrives(t, newMemory()).starts().works("dusk/shea")
	p.looks(time.Minute).sees("look at base", "in 4 min")
	for _, skew := range []time.Duration{time.Hour, -time.Hour, 31 * 24 * time.Hour, -31 * 24 * time.Hour, 0} {
		p.skew = skew
		p.looks(0).sees("look at base", "in 4 min").seesNot("in -", "for -", "!! look at base")
	}
	p.skew = -time.Hour // Facts said meanwhile keep their order.
	p.press(" ")
	entries := p.store.entries["26K25A"]
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

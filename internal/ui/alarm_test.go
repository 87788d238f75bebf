package ui

import (
	"testing"
	"time"

	"bench/internal/batch"
)

// TestAlarmOfTheBenchFirst holds a and z to the batch on the bench before any
// other, and the line to saying whose alarm it is.
func TestAlarmOfTheBenchFirst(t *testing.T) {
	s := newMemory()
	p := arrives(t, s).starts().works("dusk/shea").press("esc", "down", "enter", "enter").works("dusk/shea").waits(2 * time.Second)
	p.press("tab", "enter").sees("26K25A")
	p.looks(6*time.Minute).sees("!! look at base", "more").press("a")
	if f := s.facts("26K25A"); batch.Kind(f[len(f)-1]) != "timer-seen" {
		t.Errorf("kept %+v", f[len(f)-1])
	}
	p.sees("!! 26K25B: look at base").press("z", "x").seesNot("!!")
	f := s.facts("26K25B")
	if got, ok := f[len(f)-1].(batch.TimerPutOff); !ok || got.For != 10*time.Minute {
		t.Errorf("kept %+v", f[len(f)-1])
	}
}

// TestUnmouldPutOff holds the unmoulding to being put off for half a day, and
// the words to the moment at which it comes back.
func TestUnmouldPutOff(t *testing.T) {
	p := arrives(t, newMemory()).starts().works("").looks(time.Hour + time.Minute).press("a").looks(2 * time.Hour).press("a")
	p.looks(21 * time.Hour).sees("!! unmould 3 loaves").press("z").sees("z 12 h  x 30 min  c 2 h")
	p.press("z").records(batch.TimerPutOff{Timer: "unmould", For: 12 * time.Hour})
	back := p.clock.Add(12 * time.Hour)
	p.sees("put off until " + back.Format("15:04"))
	p.looks(time.Hour).sees("put off until " + back.Format("15:04"))
	p.looks(11*time.Hour).sees("!! unmould 3 loaves", "late by")
}

// TestOfferIsNoTrap holds a key after the offer that is no answer to doing what
// it always does.
func TestOfferIsNoTrap(t *testing.T) {
	p := arrives(t, newMemory()).starts().works("dusk/shea").looks(5*time.Minute + 4*time.Second)
	before := len(p.store.facts("26K25A"))
	p.press("z", "!").sees("FIRST AID").press("enter").sees("a seen z later").recorded(before)
	p.press("z").types("126.7").press("enter").recorded(before + 1).press("x").sees("Leave out")
}

package ui

import (
	"testing"
	"time"

	"bench/internal/memory"
)

// TestSteadyIsDrawnOnce holds a second that passes to the lines of the timers, and a
// key to a whole screen.
func TestSteadyIsDrawnOnce(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("sea/olive").looks(time.Second)
	p.m.View()
	p.m.bench.Word = "only a whole screen shows it"
	p.looks(time.Second).seesNot("only a whole screen shows it")
	p.looks(time.Minute).sees("only a whole screen shows it")
}

// TestMidnightPasses: at midnight, what was said becomes yesterday's.
func TestMidnightPasses(t *testing.T) {
	p := arrives(t, memory.New()).waits(15*time.Hour - time.Minute).starts().works("sea/olive")
	midnight := morning.Add(15 * time.Hour)
	p.looks(midnight.Sub(p.clock) - 10*time.Second)
	p.m.View()
	p.looks(9 * time.Second).seesNot("25 Nov").looks(2 * time.Second).sees("25 Nov")
}

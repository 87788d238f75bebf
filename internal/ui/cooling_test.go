package ui

import (
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/memory"
	"bench/internal/work"
)

// TestLyeIsReadWhileItCools goes to the gate long before it opens and reads the
// lye solution there.
func TestLyeIsReadWhileItCools(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("dusk/water")
	for range 12 {
		if p.task() == "sea/lye temperature" {
			break
		}
		p.press("right")
	}
	p.waits(10 * time.Minute).types("80").press("enter")
	if f, ok := p.last().(batch.TemperatureTaken); !ok || f.Task != "sea/lye temperature" || f.Temperature.Celsius() != 80 {
		t.Errorf("kept %+v at %s", p.last(), p.task())
	}
}

// TestGateSaysTogether: what is wanted of two liquids that meet is said to be that of
// both together, and while one is typed, how warm the other must then be.
func TestGateSaysTogether(t *testing.T) {
	p := arrives(t, memory.New()).starts()
	for p.taskAtHand().Do != work.Temperature {
		p.doesOne()
	}
	p.waits(40 * time.Minute).sees("together").types("31").sees("the other then wants 43 °C: together 38 °C").press("enter")
	p.sees("wanted", "With the lye solution at 31 °C it wants 43 °C here").types("38").sees("together they give 35.").press("enter")
	p.sees("2.9 °C below the 38 °C that is wanted")
}

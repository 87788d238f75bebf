package ui

import (
	"testing"

	"bench/internal/batch"
	"bench/internal/memory"
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
	p.types("80").press("enter")
	if f, ok := p.last().(batch.TemperatureTaken); !ok || f.Task != "sea/lye temperature" || f.Temperature.Celsius() != 80 {
		t.Errorf("kept %+v at %s", p.last(), p.task())
	}
}

package ui

import (
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"bench/internal/memory"
	"bench/internal/ui/ink"
)

// TestKeptAreasFollow: the areas that are kept from key to key follow whatever they
// depend on: the plan, the stage and the task at hand, the window, the inks, the day.
func TestKeptAreasFollow(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	p := arrives(t, memory.New()).starts().works("sea/shea")
	names := []string{"up", "down", "left", "right", "left", "right", "space", "enter", "esc", "1", "n", "x"}
	for range 400 {
		switch r.IntN(12) {
		case 0:
			p.sized(110+r.IntN(100), 32+r.IntN(30))
		case 1:
			p.looks(time.Duration(r.IntN(20)) * time.Hour)
		case 2:
			p.types(p.asked()).press("enter")
		default:
			p.press(names[r.IntN(len(names))])
		}
		p.setAnew()
	}
	p.sized(120, 40)
	if many, none := p.inked(ink.Many, ink.Dark), p.inked(ink.None, ink.Dark); usedCodes(many) == usedCodes(none) {
		t.Error("the inks did not change")
	}
}

// setAnew demands that the areas of the screen that are kept from key to key are what
// they would be if they were set now.
func (p *person) setAnew() {
	p.t.Helper()
	was := strings.Join(p.m.lines(p.m.width, p.m.height), "\n")
	p.m.lines(p.m.width+1, p.m.height+1) // In a window of another size nothing is kept.
	if is := strings.Join(p.m.lines(p.m.width, p.m.height), "\n"); is != was {
		p.t.Fatalf("kept was\n%s\nand it is\n%s", was, is)
	}
}

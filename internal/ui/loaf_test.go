package ui

import (
	"strings"
	"testing"

	"bench/internal/cells"
	"bench/internal/memory"
	"bench/internal/work"
)

// inColour is a person whose terminal shows colours and quadrants.
func inColour(t *testing.T) *person {
	p := arrives(t, memory.New()).sized(120, 40)
	p.m.deps.Theme.Picture = cells.Look{Pattern: cells.Quadrants, Colours: cells.True, Bold: true}
	return p
}

// filled counts the rows that have soap of that colour in them, as SGR has it.
func filled(p *person, rgb string) int {
	n := 0
	for line := range strings.Lines(p.m.View()) {
		if strings.Contains(line, rgb) {
			n++
		}
	}
	return n
}

// The colours of the built-in sea and dusk.
const (
	seaSGR  = "48;2;42;111;125"
	duskSGR = "48;2;166;112;140"
)

// TestLoafFills holds the loaf to being filled as far as it was poured: to the
// pour line first, and to the finished surface once the embeds are in.
func TestLoafFills(t *testing.T) {
	p := inColour(t).starts().works("sea/base/loaf 1/pour").sees("▼ 22.5", "base: pour to 22.5 mm")
	if n := filled(p, seaSGR); n != 0 {
		t.Fatalf("%d rows are filled before the first pour", n)
	}
	p.press("space").sees("loaf 2 of 3", "base: pour to 22.5 mm")
	if n := filled(p, seaSGR); n != 0 {
		t.Errorf("%d rows of loaf 2 are filled before it is poured", n)
	}
	p.works("dusk/shea").sized(160, 56).sees("loaf 1 of 3", "base: poured to 22.5 mm")
	before := filled(p, seaSGR)
	p.works("dusk/lye jug").sees("base: poured to 30 mm")
	after := filled(p, seaSGR)
	if before < 4 || after <= before || filled(p, duskSGR) != 0 {
		t.Errorf("%d rows are filled to 22.5 mm, and %d to 30 mm:\n%s", before, after, p.m.View())
	}
	p.works("dusk/sky/loaf 3/pour").press("left")
	if n := filled(p, duskSGR); n < 4 {
		t.Errorf("%d rows are filled with sky:\n%s", n, p.m.View())
	}
}

// TestTheFaceAtAnySize holds the whole-window picture to opening from the bench
// and from the set-up, at the smallest window too, and to going back.
func TestTheFaceAtAnySize(t *testing.T) {
	for _, size := range [][2]int{{80, 24}, {120, 40}, {200, 60}} {
		p := arrives(t, memory.New()).sized(size[0], size[1]).press("enter", "f").sees("the cut face", "sky", "base", "any key")
		p.press("esc").sees("start the batch").press("enter").sees("batch 26K25").press("f").sees("loaf 1 of 3", "to come", "any key")
		p.press("?").sees("Weigh and tick").press("x").sees("loaf 1 of 3", "any key").press("x").seesNot("any key back").sees("batch 26K25")
	}
}

// TestAnUnchangedFaceIsNotDrawnAgain holds a key that changes nothing in the loaf
// to the picture that was there, cell by cell.
func TestAnUnchangedFaceIsNotDrawnAgain(t *testing.T) {
	p := inColour(t).starts().works("sea/olive")
	if n := testing.AllocsPerRun(20, func() { _ = p.m.View() }); n > 1500 {
		t.Errorf("a view that changes nothing takes %.0f allocations: is the loaf drawn again?", n)
	}
	_, stage, _ := p.m.bench.Current(p.moment())
	if stage.Kind != work.Oils {
		t.Fatalf("the stage is %s", stage.Kind)
	}
}

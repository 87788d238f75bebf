package ui

import (
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/memory"
)

// TestTypedGoesOnInWords: a day that is typed after a figure without t goes where the
// figure is, and not into a note; esc leaves the figure as it was.
func TestTypedGoesOnInWords(t *testing.T) {
	p := arrives(t, memory.New()).cures(3).press("enter", "enter").press("left")
	n := len(p.store.Facts("26K25A"))
	p.types("94.8 on 2026-12-17").sees("Weigh marked bar 1", "▶ 94.8 on 2026-12-17").press("esc").recorded(n).sees("enter keep 94.8")
	p.press("space").sees("▶ 94.8").types("on 2026-12-17").press("enter").recorded(n + 1)
	facts := p.store.Facts("26K25A")
	if f, ok := facts[n].(batch.WeighedIn); !ok || f.Mass != 94*aGram+8*aTenth || f.When.Format(time.DateOnly) != "2026-12-17" {
		t.Errorf("kept %+v", facts[n])
	}
}

// TestTypedStays: a note leaves a figure that is being typed where it was, and says so;
// another batch is not taken up over it.
func TestTypedStays(t *testing.T) {
	p := arrives(t, memory.New()).starts().press("esc").press("down", "enter", "enter").works("sea/shea").types("12")
	n := len(p.store.Facts("26K25B"))
	p.press("n").sees("12 stays typed where it was").types("dusk").press("enter").recorded(n + 1).sees("enter keep 12")
	p.press("tab").sees("26K25B", "First: enter keeps 12, esc clears it.", "enter keep 12")
	p.press("esc", "tab").sees("26K25A")
}

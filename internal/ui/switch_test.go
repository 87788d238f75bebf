package ui

import (
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/memory"
)

// TestSwitchAsksWhereItMatters: going round two batches asks where one was for a
// batch that has something on the scale, that was left
// for long, or in which something was said since; and no other time.
func TestSwitchAsksWhereItMatters(t *testing.T) {
	s := memory.New()
	p := arrives(t, s).starts().press("esc").press("down", "enter", "enter").sees("26K25B")
	p.press("tab").sees("26K25A").seesNot("Where you were").press("tab").sees("26K25B").seesNot("Where you were")
	n := len(s.Facts("26K25B"))
	p.press("space").recorded(n + 1)
	p.press("tab").sees("26K25A").seesNot("Where you were")
	p.waits(6*time.Minute).press("tab").sees("26K25B", "Where you were")
	p.press("enter", "tab").sees("26K25A").seesNot("Where you were")
	p.tells("26K25B", p.clock.Sub(morning), batch.Noted{Text: "by another bench"})
	p.press("tab").sees("26K25B", "Where you were")
	p.press("enter", "tab").sees("26K25A").seesNot("Where you were").works("sea/shea").press("tab", "tab").sees("26K25A").seesNot("Where you were")
	p.works("sea/coconut").press("tab", "tab").sees("26K25A").seesNot("Where you were") // A moment, and nothing was said.
	p.press("tab").waits(2*time.Minute).press("tab").sees("26K25A", "Where you were", "Now on").press("enter")
	p.press("tab").sees("26K25B").press("n").types("dusk").press("enter", "tab").sees("26K25A", "Where you were", "Now on")
}

// TestBackAsksWhereItMatters: the first screen and back is a switch like any other: for a
// moment nothing is asked, not even what stands on the scale, unless something was said
// meanwhile or where one was had not been answered.
func TestBackAsksWhereItMatters(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("sea/coconut").press("esc").sees("26K25A").press("enter").sees("coconut").seesNot("Where you were")
	p.press("esc").waits(2*time.Minute).press("enter").sees("Where you were", "Now on")
	p.press("esc", "enter").sees("Where you were", "Now on").press("enter").seesNot("Where you were")
	p.press("esc")
	p.tells("26K25A", p.clock.Sub(morning), batch.Noted{Text: "by another bench"})
	p.press("esc", "enter").sees("Where you were", "by another bench")
}

// TestSharedVessels: what stands in the jug of one batch is said, large, beside the
// water of another, and space does not pass it; the one that was taken is kept, and the
// scale reads by its tare from then on.
func TestSharedVessels(t *testing.T) {
	s := memory.New()
	p := arrives(t, s).starts().works("sea/castor").press("esc").press("down", "enter", "enter").sees("26K25B").works("sea/water")
	n := len(s.Facts("26K25B"))
	p.sees("lye jug A holds the sea lye solution of batch", "26K25A: take another, or finish that first").press("space").sees("Is the vessel free?", "Lye jug A holds").press("enter").sees("Say which vessel was taken.").press("esc")
	p.press("space", "esc").recorded(n).sees("Water into the lye jug")
	p.types("1").press("enter").sees("Is the vessel free?").types("spare jug 214.0 g").press("enter")
	p.records(batch.VesselReplaced{Vessel: "lye jug A", By: "spare jug", Tare: 214_000, Held: "the sea lye solution"}).sees("spare jug", "vessel 214.0", "stands for lye jug A now")
	p.press("esc", "space").recorded(n + 2).seesNot("Is the vessel free?")
}

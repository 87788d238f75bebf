package ui

import (
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/memory"
)

// TestSwitchAsksWhereItMatters: going round two batches asks where one was for a
// batch that was not seen before, that has something on the scale, that was left
// for long, or in which something was said since; and no other time.
func TestSwitchAsksWhereItMatters(t *testing.T) {
	s := memory.New()
	p := arrives(t, s).starts().press("esc").press("down", "enter", "enter").sees("26K25B")
	p.press("tab").sees("26K25A", "Where you were").press("enter").press("tab").sees("26K25B").seesNot("Where you were")
	n := len(s.Facts("26K25B"))
	p.press("space").recorded(n + 1)
	p.press("tab").sees("26K25A").seesNot("Where you were")
	p.waits(6*time.Minute).press("tab").sees("26K25B", "Where you were")
	p.press("enter", "tab").sees("26K25A").seesNot("Where you were")
	p.tells("26K25B", p.clock.Sub(morning), batch.Noted{Text: "by another bench"})
	p.press("tab").sees("26K25B", "Where you were")
	p.press("enter", "tab").sees("26K25A").seesNot("Where you were").works("sea/shea").press("tab", "tab").sees("26K25A").seesNot("Where you were")
	p.works("sea/coconut").press("tab").sees("26K25B").press("tab").sees("26K25A", "Where you were", "Now on")
}

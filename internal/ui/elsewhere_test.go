package ui

import (
	"testing"
	"time"

	"bench/internal/memory"
)

// TestElsewhere: where nothing is to be done on one batch, another's lye solution that stands,
// its alarm and the task that can be done are said with the key that goes there, in a
// large window and a small one.
func TestElsewhere(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("").sees("Nothing to do just now").seesNot("goes to")
	p.press("esc").press("down", "enter", "enter").sees("26K25B").works("sea/lye temperature").waits(6 * time.Minute).press("tab")
	p.sees("Where you were", "nothing to do just now", "tab goes to 26K25B", "sea lye solution cooling for", "now, gate · sea: How warm is")
	p.press("enter").sees("Nothing to do on this batch", "tab goes to 26K25B", "sea lye solution cooling for", "now, gate · sea: How warm is")
	p.sized(40, 12).sees("Nothing to do on this batch", "batch 26K25B: sea lye solution cooling")
	p.sized(80, 24).press("tab").sees("26K25B", "How warm is the sea lye solution?")
}

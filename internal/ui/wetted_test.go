package ui

import (
	"testing"

	"bench/internal/memory"
)

// TestWettedColourGoesByEye: of a colour that stands in its cup with oil no reading is
// told that only the dry colour would have, tared or not.
func TestWettedColourGoesByEye(t *testing.T) {
	p := arrives(t, memory.New()).press("down").starts().sees("Tide lines").works("tide/low water/ultramarine blue")
	p.sees("go by eye   100 %", "of the cup: it holds oil, too").seesNot("not tared", "tared full")
}

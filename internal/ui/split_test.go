package ui

import (
	"strings"
	"testing"

	"bench/internal/memory"
	"bench/internal/ui/ink"
)

// TestSplitIsReadFromAfar: how far a portion is from its reading stands there in large
// words, and bars that were poured do not touch.
func TestSplitIsReadFromAfar(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("sea/base/loaf 2").sized(120, 40).types("1110.0")
	p.sees("→ 378.0").press("esc").seesNot("→").types("1110.0")
	for typed, says := range map[string]string{"1110.0": "10.9 to pour", "1090.0": "9.1 too far", "1099.0": "within"} {
		p.press("esc").types(typed)
		for _, row := range ink.Letters(says, 1) {
			p.sees(strings.TrimRight(row, " "))
		}
	}
	p.press("enter")
	rows := 0
	for _, l := range p.m.bare() {
		if strings.Contains(l, "loaf 1  ") || strings.Contains(l, "loaf 2  ") {
			if rows++; !strings.Contains(l, "▄") || strings.Contains(l, "█") {
				t.Errorf("a bar touches the one above: %q", l)
			}
		}
	}
	if rows != 2 {
		t.Errorf("%d bars were poured:\n%s", rows, p.m.View())
	}
}

// TestBarsAreToOneScale: what stands behind a bar makes it neither longer nor shorter.
func TestBarsAreToOneScale(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("sea/base/loaf 1")
	lengths := map[int]bool{}
	for _, l := range p.m.bare() {
		if _, after, ok := strings.Cut(l, "loaf "); ok && strings.Contains(l, "stop ") && strings.Contains(l, "──") {
			lengths[strings.Count(after, "─")] = true
		}
	}
	if len(lengths) != 1 {
		t.Errorf("three portions that differ by a tenth of a gram have bars of %v cells:\n%s", lengths, p.m.View())
	}
}

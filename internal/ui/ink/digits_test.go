package ink

import (
	"strings"
	"testing"
)

// TestFiguresDiffer holds any two figures to differing in more than one place,
// and all to one width, so that a number never moves sideways.
func TestFiguresDiffer(t *testing.T) {
	for a := '0'; a <= '9'; a++ {
		for b := a + 1; b <= '9'; b++ {
			if n := dotsApart(glyphs[a], glyphs[b]); n < 4 {
				t.Errorf("%c and %c differ in %d dots", a, b, n)
			}
		}
		for _, scale := range []int{1, 2} {
			rows := Big(string(a), scale)
			for _, row := range rows {
				if Width(row) != 6*scale || len(rows) != 5*scale {
					t.Errorf("%c at %d is %d by %d", a, scale, Width(row), len(rows))
				}
			}
		}
	}
	before := Big("12.3", 1)
	for i, row := range Big("12.34", 1) {
		if !strings.HasPrefix(row, before[i]) {
			t.Errorf("row %d moved: %q, then %q", i, before[i], row)
		}
	}
}

func dotsApart(a, b [5]string) int {
	n := 0
	for i := range a {
		x, y := []rune(a[i]), []rune(b[i])
		for k := range x {
			for which := range 2 {
				if dark(x[k], which) != dark(y[k], which) {
					n++
				}
			}
		}
	}
	return n
}

package cells

import (
	"testing"

	"bench/internal/cells/shot"
)

// The characters against their names in Unicode 17 (golang.org/x/text): each
// mask has the one that fills exactly its dots, and no two share one.
func TestGlyphsAgainstTheirNamesInUnicode(t *testing.T) {
	for _, p := range []Pattern{Halves, Quadrants, Sextants, Octants, Braille} {
		across, down := p.Dots()
		seen := map[rune]bool{}
		for mask := range 1 << (across * down) {
			r := glyphOf(p, mask)
			if seen[r] {
				t.Errorf("%s: %U stands for two masks", p, r)
			}
			seen[r] = true
			if p == Braille && mask == 0 {
				continue // "BRAILLE PATTERN BLANK"
			}
			w, h, got, ok := shot.Mask(r)
			if want := spread(mask, across, down, w, h); !ok || got != want {
				t.Errorf("%s %08b: %U fills %08b of %d by %d dots", p, mask, r, got, w, h)
			}
		}
	}
}

// spread says a mask in finer dots.
func spread(mask, across, down, w, h int) int {
	out := 0
	for i := range w * h {
		x, y := i%w, i/w
		if mask>>(y*down/h*across+x*across/w)&1 == 1 {
			out |= 1 << i
		}
	}
	return out
}

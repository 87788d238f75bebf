package ink

import (
	"strings"
	"testing"

	"bench/internal/recipe"

	"github.com/charmbracelet/x/ansi"
	"pgregory.net/rapid"
)

// What is called simple must be so by the tables of Unicode (UAX #11 and #29,
// as the library has them).
func TestSimpleIsOneCellAlone(t *testing.T) {
	for r := rune(0); r <= 0x2fff; r++ {
		if !simple(r) {
			continue
		}
		if s := string(r); ansi.StringWidth(s) != 1 || recipe.Clean(s) != s {
			t.Errorf("%U takes %d cells and is cleaned to %q", r, ansi.StringWidth(s), recipe.Clean(s))
		}
		if n := ansi.StringWidth("a" + string(r) + string(r) + "a"); n != 4 {
			t.Errorf("two of %U between letters take %d cells, not 4 with them", r, n)
		}
	}
}

func TestTextIsMeasuredAsByTheLibrary(t *testing.T) {
	pieces := rapid.SampledFrom([]string{"a", "é", "e\u0301", "✓", "▶", "▶\ufe0f", "蒸", "👩\u200d🔬", "─", "…", "\x1b[1;36m", "\x1b[0m", "\u200b", " ", "·"})
	rapid.Check(t, func(t *rapid.T) {
		s := strings.Join(rapid.SliceOf(pieces).Draw(t, "text"), "")
		if got, want := Width(s), ansi.StringWidth(s); got != want {
			t.Fatalf("%q takes %d cells, not %d", s, got, want)
		}
		w := rapid.IntRange(1, 12).Draw(t, "w")
		if got, want := Cut(s, w), ansi.Truncate(s, w, "…"); got != want {
			t.Fatalf("%q cut to %d is %q, not %q", s, w, got, want)
		}
		if got, want := Clean(s), recipe.Clean(s); got != want {
			t.Fatalf("%q is cleaned to %q, not %q", s, got, want)
		}
	})
}

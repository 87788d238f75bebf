package after

import (
	"fmt"
	"strings"

	"github.com/charmbracelet/bubbles/key"

	"bench/internal/ui/ink"
	"bench/internal/ui/keys"
)

// Small is the page in a window too small for it: the question, all answers by their
// first words, and the one at the cursor whole, with what follows from it.
func (s Choices) Small(t ink.Theme, w int) ink.Small {
	lines := ink.Wrap(ink.Clean(s.heading()), w)
	for i, c := range s.list {
		title, _, _ := strings.Cut(ink.Clean(c.Title), ": ")
		if i != s.cursor {
			lines = append(lines, ink.Cut("  "+title, w))
			continue
		}
		lines = append(lines, ink.Hang(t.Accent.Render(ink.SignNow), ink.Clean(c.Title), w)...)
		for _, l := range ink.Wrap(ink.Clean(c.Why), w-2) {
			lines = append(lines, "  "+t.Quiet.Render(l))
		}
	}
	if s.Word != "" {
		lines = append(lines, ink.Wrap(ink.SignOff+" "+s.Word, w)...)
	}
	at := fmt.Sprintf("%d of %d", min(s.cursor+1, len(s.list)), len(s.list))
	moves := []key.Binding{keys.Shown("↑ ↓", at)}
	if len(s.loaves) > 0 {
		moves = append(moves, keys.Shown("← →", "loaf"))
	}
	return ink.Small{
		Needs: lines, Least: lines, More: [][]string{ink.Wrap(ink.Clean(s.hint), w)},
		Keys: keys.Small(t, w, append(moves, keys.Says(keys.Take, "take this"), keys.Back)...),
	}
}

// SmallTakes says that a key answers in a window too small for the page.
func (s Choices) SmallTakes(p keys.Press) bool {
	return keys.Moves(p) || keys.Matches(p, keys.Left, keys.Right, keys.Take, keys.Back)
}

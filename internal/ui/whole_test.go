package ui

import (
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"

	"bench/internal/memory"
	"bench/internal/ui/ink"
)

// middle gives the words of the column that says what is next, line ends taken
// out.
func (p *person) middle() string {
	var words []string
	for _, l := range strings.Split(ansi.Strip(p.m.View()), "\n") {
		if _, after, ok := strings.Cut(l, "│"); ok {
			l = after
		}
		l, _, _ = strings.Cut(l, "│")
		words = append(words, strings.Fields(l)...)
	}
	return strings.Join(words, " ")
}

// TestNothingToReadIsCut holds the smallest window to showing the order and its
// caution whole, through whole batches of the built-in recipes.
func TestNothingToReadIsCut(t *testing.T) {
	for i := range builtin(t) {
		p := arrives(t, memory.New())
		for range i {
			p.press("down")
		}
		p.press("enter", "enter")
		if p.m.bench.Code == "" {
			continue // A recipe with a problem.
		}
		for range 300 {
			task, _, ok := p.m.bench.Current(p.moment())
			if !ok {
				break
			}
			seen := p.middle()
			for _, text := range []string{task.Title, task.Hint} {
				if whole := strings.Join(strings.Fields(ink.Clean(text)), " "); !strings.Contains(seen, whole) {
					t.Errorf("%s: %q is not whole:\n%s", task.ID, whole, p.m.View())
				}
			}
			p.doesOne()
		}
	}
}

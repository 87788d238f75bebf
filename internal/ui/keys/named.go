package keys

import (
	"unicode/utf8"

	tea "github.com/charmbracelet/bubbletea"
)

// Named gives the key that a help line calls by that name, or false.
func Named(name string) (tea.KeyMsg, bool) {
	switch name {
	case Tick.Help().Key:
		return tea.KeyMsg{Type: tea.KeySpace, Runes: []rune{' '}}, true
	case Accept.Help().Key:
		return tea.KeyMsg{Type: tea.KeyEnter}, true
	case Back.Help().Key:
		return tea.KeyMsg{Type: tea.KeyEsc}, true
	case Erase.Help().Key:
		return tea.KeyMsg{Type: tea.KeyBackspace}, true
	case Switch.Help().Key:
		return tea.KeyMsg{Type: tea.KeyTab}, true
	case AidAnywhere.Help().Key:
		return tea.KeyMsg{Type: tea.KeyF1}, true
	case Up.Help().Key:
		return tea.KeyMsg{Type: tea.KeyUp}, true
	case Down.Help().Key:
		return tea.KeyMsg{Type: tea.KeyDown}, true
	case Left.Help().Key:
		return tea.KeyMsg{Type: tea.KeyLeft}, true
	case Right.Help().Key:
		return tea.KeyMsg{Type: tea.KeyRight}, true
	}
	r, n := utf8.DecodeRuneInString(name)
	if n != len(name) || r <= ' ' || r >= 0x7f {
		return tea.KeyMsg{}, false
	}
	return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}}, true
}

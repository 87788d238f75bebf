package keys

import (
	"slices"

	"bench/internal/ui/ink"

	tea "github.com/charmbracelet/bubbletea"
)

// maxLine keeps a note within what a record can show.
const maxLine = 400

// Line is one line of text with a cursor. It is our own because bubbles'
// textinput brings a clipboard package, which searches the PATH in an init, and
// a cursor that blinks on a tick.
type Line struct {
	runes []rune
	at    int
}

// Text is what has been typed.
func (l Line) Text() string { return string(l.runes) }

// Insert puts cleaned text at the cursor.
func (l Line) Insert(s string) Line {
	add := []rune(s)
	add = add[:min(len(add), max(0, maxLine-len(l.runes)))]
	l.runes = slices.Insert(slices.Clone(l.runes), l.at, add...)
	l.at += len(add)
	return l
}

// Update edits the line.
func (l Line) Update(p Press) Line {
	switch p.Type {
	case tea.KeyRunes, tea.KeySpace:
		return l.Insert(ink.Clean(string(p.Runes)))
	case tea.KeyBackspace:
		if l.at > 0 {
			l.runes = slices.Delete(slices.Clone(l.runes), l.at-1, l.at)
			l.at--
		}
	case tea.KeyDelete:
		if l.at < len(l.runes) {
			l.runes = slices.Delete(slices.Clone(l.runes), l.at, l.at+1)
		}
	case tea.KeyLeft:
		l.at = max(0, l.at-1)
	case tea.KeyRight:
		l.at = min(len(l.runes), l.at+1)
	case tea.KeyHome, tea.KeyCtrlA:
		l.at = 0
	case tea.KeyEnd, tea.KeyCtrlE:
		l.at = len(l.runes)
	case tea.KeyCtrlU:
		l = Line{}
	default: // Other keys are not for a line.
	}
	return l
}

// View shows as much of the line as fits w cells, the cursor in sight.
func (l Line) View(t ink.Theme, w int) string {
	from := 0
	for ink.Width(string(l.runes[from:l.at])) > w-2 && from < l.at {
		from++
	}
	after := l.runes[l.at:]
	under := " "
	if len(after) > 0 {
		under, after = string(after[0]), after[1:]
	}
	// The bar shows where the cursor is on a terminal without reverse.
	return ink.Cut(string(l.runes[from:l.at])+"▏"+t.Cursor.Render(under)+string(after), w)
}

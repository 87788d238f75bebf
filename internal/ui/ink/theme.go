// Package ink draws: text cut to cells, blocks and columns, large figures, and
// how things look by what they mean.
//
// The rule: it knows lines of cells and nothing of batches; a frame that it
// has set never breaks.
package ink

import (
	"strings"

	"bench/internal/cells"

	"github.com/charmbracelet/lipgloss"
)

// Theme says how things look, by what they mean. Sixteen colours are enough,
// and every colour comes with a sign or a word, so that none is needed.
type Theme struct {
	Title  Ink // title names the screen or the batch.
	Strong Ink // strong is what a glance must find.
	Quiet  Ink // quiet is what may be read later.
	Accent Ink // accent marks the one thing that is next.
	Good   Ink
	Off    Ink // off is out of tolerance, not saved, not possible.
	Alarm  Ink // alarm is a timer that is due.
	Key    Ink
	Line   Ink // line is for rules and frames.
	Cursor Ink

	Picture cells.Look // Picture is what the terminal can show of a loaf.
}

// NewTheme builds the theme on r, never on the global renderer. Without colour
// it keeps to bold, faint and reverse, which NO_COLOR allows; r's profile must
// then be one that knows them (ANSI), or all is plain (Ascii).
func NewTheme(r *lipgloss.Renderer, colour bool) Theme {
	plain := r.NewStyle()
	bold, faint := plain.Bold(true), plain.Faint(true)
	coloured := func(s lipgloss.Style, ansi string) lipgloss.Style {
		if colour {
			return s.Foreground(lipgloss.Color(ansi))
		}
		return s
	}
	return Theme{
		Title:  inkOf(bold),
		Strong: inkOf(bold),
		Quiet:  inkOf(faint),
		Accent: inkOf(coloured(bold, "6")),
		Good:   inkOf(coloured(plain, "2")),
		Off:    inkOf(coloured(bold, "3")),
		Alarm:  inkOf(bold.Reverse(true)),
		Key:    inkOf(coloured(bold, "6")),
		Line:   inkOf(faint),
		Cursor: inkOf(plain.Reverse(true)),
	}
}

// Ink is a style as what stands before and after a text of one line. It is
// worked out once: a frame has a hundred texts, and has to be there at once.
type Ink struct{ before, after string }

func inkOf(s lipgloss.Style) Ink {
	before, after, _ := strings.Cut(s.Render("x"), "x")
	return Ink{before, after}
}

// Render gives the text in this ink.
func (i Ink) Render(text string) string {
	if text == "" {
		return ""
	}
	return i.before + text + i.after
}

// The signs that carry meaning where colour may not be seen.
const (
	SignDone      = "✓"
	SignNow       = "▶"
	SignOpen      = "○" // signOpen may be done meanwhile.
	SignLater     = "·"
	SignBroken    = "×"
	SignOff       = "!"
	SignSkipped   = "–"
	SignSaving    = "…"
	SignCorrected = "→"
)

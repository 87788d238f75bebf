package ui

import (
	"strings"

	"github.com/charmbracelet/lipgloss"
)

// Theme says how things look, by what they mean. Sixteen colours are enough,
// and every colour comes with a sign or a word, so that none is needed.
type Theme struct {
	title  ink // title names the screen or the batch.
	strong ink // strong is what a glance must find.
	quiet  ink // quiet is what may be read later.
	accent ink // accent marks the one thing that is next.
	good   ink
	off    ink // off is out of tolerance, not saved, not possible.
	alarm  ink // alarm is a timer that is due.
	key    ink
	line   ink // line is for rules and frames.
	cursor ink
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
		title:  inkOf(bold),
		strong: inkOf(bold),
		quiet:  inkOf(faint),
		accent: inkOf(coloured(bold, "6")),
		good:   inkOf(coloured(plain, "2")),
		off:    inkOf(coloured(bold, "3")),
		alarm:  inkOf(bold.Reverse(true)),
		key:    inkOf(coloured(bold, "6")),
		line:   inkOf(faint),
		cursor: inkOf(plain.Reverse(true)),
	}
}

// ink is a style as what stands before and after a text of one line. It is
// worked out once: a frame has a hundred texts, and has to be there at once.
type ink struct{ before, after string }

func inkOf(s lipgloss.Style) ink {
	before, after, _ := strings.Cut(s.Render("x"), "x")
	return ink{before, after}
}

// Render gives the text in this ink.
func (i ink) Render(text string) string {
	if text == "" {
		return ""
	}
	return i.before + text + i.after
}

// The signs that carry meaning where colour may not be seen.
const (
	signDone      = "✓"
	signNow       = "▶"
	signOpen      = "○" // signOpen may be done meanwhile.
	signLater     = "·"
	signBroken    = "×"
	signOff       = "!"
	signSkipped   = "–"
	signSaving    = "…"
	signCorrected = "→"
)

package ui

import "github.com/charmbracelet/lipgloss"

// Theme says how things look, by what they mean. Sixteen colours are enough,
// and every colour comes with a sign or a word, so that none is needed.
type Theme struct {
	title  lipgloss.Style // title names the screen or the batch.
	strong lipgloss.Style // strong is what a glance must find.
	quiet  lipgloss.Style // quiet is what may be read later.
	accent lipgloss.Style // accent marks the one thing that is next.
	good   lipgloss.Style
	off    lipgloss.Style // off is out of tolerance, not saved, not possible.
	alarm  lipgloss.Style // alarm is a timer that is due.
	key    lipgloss.Style
	line   lipgloss.Style // line is for rules and frames.
	cursor lipgloss.Style
}

// NewTheme builds the theme on r, never on the global renderer. Without colour
// it keeps to bold, faint and reverse, which NO_COLOR allows; r's profile must
// then be one that knows them (ANSI), or all is plain (Ascii).
func NewTheme(r *lipgloss.Renderer, colour bool) Theme {
	style := r.NewStyle
	t := Theme{
		title:  style().Bold(true),
		strong: style().Bold(true),
		quiet:  style().Faint(true),
		accent: style().Bold(true),
		good:   style(),
		off:    style().Bold(true),
		alarm:  style().Bold(true).Reverse(true),
		key:    style().Bold(true),
		line:   style().Faint(true),
		cursor: style().Reverse(true),
	}
	if colour {
		t.accent = t.accent.Foreground(lipgloss.Color("6"))
		t.good = t.good.Foreground(lipgloss.Color("2"))
		t.off = t.off.Foreground(lipgloss.Color("3"))
		t.key = t.key.Foreground(lipgloss.Color("6"))
	}
	return t
}

// The signs that carry meaning where colour may not be seen.
const (
	signDone    = "✓"
	signNow     = "▶"
	signOpen    = "○" // signOpen may be done meanwhile.
	signLater   = "·"
	signBroken  = "×"
	signOff     = "!"
	signSkipped = "–"
	signSaving  = "…"
)

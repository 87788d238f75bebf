// Package ink draws: text cut to cells, blocks and columns, large figures, and
// how things look by what they mean.
//
// The rule: it knows lines of cells and nothing of batches; a frame that it
// has set never breaks.
package ink

import (
	"strconv"
	"strings"

	"bench/internal/cells"
)

// Theme says how things look, by what they mean. Two hues do: one for what is
// next, one for what is wrong. Every colour comes with a sign or a word, so that
// none is needed.
type Theme struct {
	Title  Ink // Title names the screen or the batch.
	Strong Ink // Strong is what a glance must find.
	Quiet  Ink // Quiet is what may be read later.
	Accent Ink // Accent marks the one thing that is next.
	Good   Ink // Good is well, and calls for nothing.
	Off    Ink // Off is out of tolerance, not saved, not possible.
	Alarm  Ink // Alarm is a timer that is due.
	Key    Ink
	Line   Ink // Line is for rules and frames.
	Cursor Ink

	Picture cells.Look // Picture is what the terminal can show of a loaf.
}

// Colours says what the terminal can show.
type Colours int

// What a terminal can show. Bare has no styles at all; None has bold, faint and
// reverse, which NO_COLOR allows. Many is 256 and more: its colours are of the
// part of the palette that is the same everywhere, so they serve those with
// millions too, at fewer bytes.
const (
	Bare Colours = iota
	None
	Sixteen
	Many
)

// Ground says what the text stands on.
type Ground int

// The grounds. Unknown is usual: a terminal is never asked, because some do not
// answer.
const (
	Unknown Ground = iota
	Dark
	Light
)

// hues are the colours that carry meaning, as indices of the palette; -1 is the
// terminal's own.
type hues struct{ accent, off, quiet int }

// own is the terminal's own colour of text.
const own = -1

// huesOf gives the colours that are told apart on a ground, by people with the
// common kinds of colour blindness too: blue against orange. The middle tones
// for a ground that is not known stand out from black as much as from white
// (their contrast with both is about the root of 21). What is well has no colour:
// it needs no attention, and green looks like one of the others to many.
func huesOf(c Colours, g Ground) hues {
	switch {
	case c == Many && g == Dark:
		return hues{accent: 117, off: 214, quiet: 247}
	case c == Many && g == Light:
		return hues{accent: 25, off: 130, quiet: 241}
	case c == Many:
		return hues{accent: 63, off: 130, quiet: 243}
	case c == Sixteen && g == Light:
		return hues{accent: 4, off: 1, quiet: own}
	case c == Sixteen && g == Dark:
		return hues{accent: 6, off: 3, quiet: own}
	case c == Sixteen: // Bright blue and red are the two that both grounds leave readable.
		return hues{accent: 12, off: 1, quiet: own}
	}
	return hues{own, own, own}
}

// NewTheme builds the theme for what a terminal can show on which ground.
func NewTheme(c Colours, g Ground) Theme {
	if c == Bare {
		return Theme{}
	}
	h := huesOf(c, g)
	quiet := inkOf(faint, own)
	if h.quiet != own { // A grey is the same everywhere; how faint is faint is not.
		quiet = inkOf(0, h.quiet)
	}
	return Theme{
		Title:  inkOf(bold, own),
		Strong: inkOf(bold, own),
		Quiet:  quiet,
		Accent: inkOf(bold, h.accent),
		Good:   Ink{},
		Off:    inkOf(bold, h.off),
		Alarm:  inkOf(bold|reverse, h.off),
		Key:    inkOf(bold, h.accent),
		Line:   quiet,
		Cursor: inkOf(reverse, own),
	}
}

// The styles that need no colour.
const (
	bold = 1 << iota
	faint
	reverse
)

// Ink is a style as what stands before and after a text of one line. It is
// worked out once: a frame has a hundred texts, and has to be there at once.
type Ink struct{ before, after string }

// inkOf gives the sequence of a style (ECMA-48, SGR).
func inkOf(style, colour int) Ink {
	var codes []string
	for i, code := range []string{"1", "2", "7"} {
		if style&(1<<i) != 0 {
			codes = append(codes, code)
		}
	}
	switch {
	case colour >= 16:
		codes = append(codes, "38;5;"+strconv.Itoa(colour))
	case colour >= 8:
		codes = append(codes, strconv.Itoa(90+colour-8))
	case colour >= 0:
		codes = append(codes, strconv.Itoa(30+colour))
	}
	if len(codes) == 0 {
		return Ink{}
	}
	return Ink{"\x1b[" + strings.Join(codes, ";") + "m", "\x1b[0m"}
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
	SignOpen      = "○" // SignOpen may be done meanwhile.
	SignLater     = "·"
	SignBroken    = "×"
	SignOff       = "!"
	SignSkipped   = "–"
	SignSaving    = "…"
	SignCorrected = "→"
)

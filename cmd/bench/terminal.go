package main

import (
	"os"

	"github.com/charmbracelet/x/term"
	"github.com/muesli/termenv"

	"bench/internal/cells"
	"bench/internal/quiet"
)

func isTerminal(f *os.File) bool {
	if f == nil {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}

// The size that a picture is printed at where there is no terminal.
const (
	printWidth  = 80
	printHeight = 32
)

// look gives what the output can show, and how much room there is. What is no
// terminal gets no colour and no bold.
func (a *app) look(own string) (look cells.Look, w, h int) {
	look = cells.Look{Pattern: cells.PatternFor(a.getenv)}
	w, h = printWidth, printHeight
	if isTerminal(a.terminal) {
		look.Colours, look.Bold = coloursOf(quiet.Profile(a.getenv)), a.getenv("TERM") != "dumb"
		if cols, rows, err := term.GetSize(a.terminal.Fd()); err == nil && cols > 0 && rows > 0 {
			const legend = 10 // It should be in sight with the picture.
			w, h = cols, max(rows-legend, 12)
		}
	}
	if own != "" {
		look.Pattern = cells.Pattern(own)
	}
	return look, w, h
}

// coloursOf says what a terminal's profile means for a picture.
func coloursOf(p termenv.Profile) cells.Colours {
	switch p {
	case termenv.TrueColor:
		return cells.True
	case termenv.ANSI256:
		return cells.TwoHundredFiftySix
	case termenv.ANSI:
		return cells.Sixteen
	default:
		return cells.None
	}
}

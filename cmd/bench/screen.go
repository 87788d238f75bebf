package main

import (
	"fmt"
	"strings"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/muesli/termenv"

	"bench/internal/cells"
	"bench/internal/documents"
	"bench/internal/draw"
	"bench/internal/front"
	"bench/internal/quiet"
	"bench/internal/recipe"
	"bench/internal/ui"
	"bench/internal/ui/ink"
)

// screen runs the full-screen companion.
func (a *app) screen(s seat) error {
	model := ui.New(ui.Deps{
		Theme:    a.theme(),
		Location: time.Local,
		Now:      s.now,
		Recipes:  func() []front.RecipeItem { return documents.Items(s.home, s.ledger.SticksUsed) },
		Store:    s.ledger,
		Home:     s.home,
		Practice: s.practice,
		Speed:    s.speed,
		Manner:   func() recipe.Manner { return a.manner(s.home) },
		Outside:  ui.Outside{Bell: draw.Bell, Mouse: draw.Mouse, Notify: func(what, of string) tea.Cmd { return draw.Notice(what + " (" + of + ")") }},
	})
	_, err := draw.Run(relay{model}, draw.Options{In: a.in, Out: a.terminal, Getenv: a.getenv})
	if word := s.ledger.Remark(); word != "" {
		_, _ = fmt.Fprintln(a.err, "bench:", recipe.CleanLines(word)) // The screen is gone.
	}
	return err
}

// relay tells the screen in its own words what the terminal asks for.
type relay struct{ ui.Model }

func (r relay) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	if _, stop := msg.(draw.StopRequestedMsg); stop {
		msg = ui.StopMsg{}
	}
	next, cmd := r.Model.Update(msg)
	return relay{next.(ui.Model)}, cmd
}

// theme takes the colours from the environment; the terminal is never asked.
// Without colour, bold and reverse stay.
func (a *app) theme() ink.Theme {
	colours := ink.Sixteen
	switch quiet.Profile(a.getenv) {
	case termenv.Ascii:
		colours = ink.None
	case termenv.ANSI256, termenv.TrueColor:
		colours = ink.Many
	case termenv.ANSI:
	}
	t := ink.NewTheme(colours, ground(a.getenv))
	t.Picture = cells.Look{Pattern: cells.PatternFor(a.getenv), Colours: coloursOf(quiet.Profile(a.getenv)), Bold: true}
	return t
}

// ground goes by BENCH_BACKGROUND, dark or light, or else by COLORFGBG, which
// some terminals set: its last number is the colour of the background, and 7 and
// 15 are light (common practice, no source).
func ground(getenv func(string) string) ink.Ground {
	switch getenv("BENCH_BACKGROUND") {
	case "dark":
		return ink.Dark
	case "light":
		return ink.Light
	}
	fields := strings.Split(getenv("COLORFGBG"), ";")
	switch last := fields[len(fields)-1]; last {
	case "":
		return ink.Unknown
	case "7", "15":
		return ink.Light
	}
	return ink.Dark
}

// manner is how the screen behaves, as the maker's workshop has it and the flags
// of this start.
func (a *app) manner(home string) recipe.Manner {
	w, _ := documents.Workshop(home)
	if a.silent {
		w.Manner.Sound = recipe.Off
	}
	if a.mouse {
		w.Manner.Mouse = recipe.On
	}
	return w.Manner
}

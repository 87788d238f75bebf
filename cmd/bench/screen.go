package main

import (
	"errors"
	"os"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/lipgloss"
	"github.com/muesli/termenv"

	"bench/internal/cells"
	"bench/internal/draw"
	"bench/internal/journal"
	"bench/internal/quiet"
	"bench/internal/ui"
	"bench/internal/ui/ink"
	"bench/internal/ui/intent"
)

// screen runs the full-screen companion.
func (a *app) screen() error {
	now, err := a.now()
	if err != nil {
		return err
	}
	home, err := a.home()
	if err != nil {
		return err
	}
	if !isTerminal(a.in) || !isTerminal(a.terminal) {
		return errors.New("the screen needs a terminal; without one, use: bench check, plan, due or record")
	}
	store, err := journal.Open(home, journal.Options{})
	if err != nil {
		return failed(err)
	}
	model := ui.New(ui.Deps{
		Theme:    a.theme(),
		Location: time.Local,
		Now:      now,
		Recipes:  func() []intent.RecipeItem { return recipeItems(home) },
		Store:    newLedger(store, home),
		Home:     home,
	})
	_, err = draw.Run(relay{model}, draw.Options{In: a.in, Out: a.terminal, Getenv: a.getenv})
	return failed(errors.Join(err, store.Close()))
}

// relay tells the screen in its own words what the terminal asks for.
type relay struct{ tea.Model }

func (r relay) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	if _, stop := msg.(draw.StopRequestedMsg); stop {
		msg = ui.StopMsg{}
	}
	next, cmd := r.Model.Update(msg)
	return relay{next}, cmd
}

// theme takes the colours from the environment; the terminal is never asked.
// Without colour, bold and reverse stay: a profile without colours would drop
// them too.
func (a *app) theme() ink.Theme {
	r := lipgloss.NewRenderer(a.terminal)
	r.SetHasDarkBackground(true)
	profile := quiet.Profile(a.getenv)
	colour := profile != termenv.Ascii
	if !colour && a.getenv("TERM") != "dumb" {
		profile = termenv.ANSI
	}
	r.SetColorProfile(profile)
	t := ink.NewTheme(r, colour)
	t.Picture = cells.Look{Pattern: cells.PatternFor(a.getenv), Colours: coloursOf(quiet.Profile(a.getenv)), Bold: profile != termenv.Ascii}
	return t
}

// recipeItems reads the workshop and the recipes anew.
func recipeItems(home string) []intent.RecipeItem {
	w, problems := workshop(home)
	var items []intent.RecipeItem
	if words := errorsOnly(problems); len(words) > 0 {
		items = append(items, intent.RecipeItem{Name: "your workshop", File: workshopFile, Problems: words})
	}
	for _, d := range allRecipes(home, w) {
		items = append(items, d.item(w))
	}
	return items
}

func isTerminal(f *os.File) bool {
	if f == nil {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}

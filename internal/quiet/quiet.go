// Package quiet keeps the terminal from being asked for its colours.
//
// Bubble Tea v1 asks for the background colour in an init function and waits up
// to five seconds where nothing answers (pipes, relayed terminals, tests, even
// for --version). Once the background is set, it does not ask. So this package
// sets it first: Go initialises packages in the order of their import paths,
// each as soon as its imports are ready, and "bench/internal/quiet" sorts before
// "github.com/charmbracelet/bubbletea".
//
// Its rule: it may import lipgloss and termenv, but never Bubble Tea, nor
// anything that is initialised later than lipgloss. The test looks for bytes
// written at start.
package quiet

import (
	"io"
	"os"

	"github.com/charmbracelet/lipgloss"
	"github.com/muesli/termenv"
)

//nolint:gochecknoinits // Only an init can run before Bubble Tea's.
func init() {
	lipgloss.SetHasDarkBackground(true)
	lipgloss.SetColorProfile(Profile(os.Getenv)) //nolint:forbidigo // For what is styled without a theme.
}

// Profile returns the colours to use as the environment tells them, without
// asking the terminal: none for NO_COLOR or TERM=dumb, else by COLORTERM, TERM
// and CLICOLOR.
func Profile(getenv func(string) string) termenv.Profile {
	if getenv("TERM") == "dumb" {
		return termenv.Ascii // Even where COLORTERM is inherited from outside.
	}
	out := termenv.NewOutput(io.Discard, termenv.WithEnvironment(environ(getenv)), termenv.WithTTY(true))
	return out.EnvColorProfile()
}

// environ lets termenv read a function instead of the process environment.
type environ func(string) string

func (e environ) Getenv(key string) string { return e(key) }

// Environ is part of termenv.Environ; profiles are found by Getenv alone.
func (e environ) Environ() []string { return nil }

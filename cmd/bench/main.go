// Command bench is a full-screen companion for making soap.
//
// It wires flags, folders, clock, store and terminal together, and is the only
// place that knows all of them. What it prints comes from paper; what it shows
// comes from ui.
package main

import (
	"errors"
	"fmt"
	"io"
	"os"

	"bench/internal/recipe"
)

// Exit codes: what a script can rely on.
const (
	exitClean    = 0
	exitProblems = 1
	exitUsage    = 2
	exitDue      = 3 // exitDue says that a timer asks for somebody.
)

func main() {
	private()
	os.Exit(run(os.Args[1:], standardIO()))
}

// streams are where a command reads and writes.
type streams struct {
	in       *os.File
	out, err io.Writer
	terminal *os.File // terminal is what the screen is drawn on.
	getenv   func(string) string
}

func standardIO() streams {
	return streams{in: os.Stdin, out: os.Stdout, err: os.Stderr, terminal: os.Stdout, getenv: os.Getenv}
}

// run is main without the process: it gives the exit code.
func run(args []string, io streams) int {
	root := newRoot(io)
	root.SetArgs(args)
	err := root.Execute()
	var problems problemsError
	var due dueError
	switch {
	case errors.As(err, &due):
		return exitDue
	case err == nil:
		return exitClean
	case errors.As(err, &problems):
		return exitProblems
	}
	_, _ = fmt.Fprintf(io.err, "bench: %s\n", recipe.CleanLines(err.Error()))
	var failed failedError
	if errors.As(err, &failed) {
		return exitProblems
	}
	return exitUsage
}

// problemsError says that problems were found and have been printed.
type problemsError struct{}

func (problemsError) Error() string { return "problems were found" }

// dueError says that a timer is due.
type dueError struct{}

func (dueError) Error() string { return "a timer is due" }

// failedError is an error of the work, not of how the command was called.
type failedError struct{ err error }

func (e failedError) Error() string { return e.err.Error() }
func (e failedError) Unwrap() error { return e.err }

// failed marks an error as one of the work.
func failed(err error) error {
	if err == nil {
		return nil
	}
	return failedError{err}
}

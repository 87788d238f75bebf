package main

import (
	"errors"
	"fmt"
	"os"
	"strings"

	"bench/internal/journal"
	"bench/internal/recipe"
)

// said is an error in words that fit on one line of the screen, where what was
// tried stands before them.
type said struct {
	words string
	err   error
}

func (s said) Error() string { return s.words }
func (s said) Unwrap() error { return s.err }

// inWords says the reason and what to do first: the screen has room for little
// more.
func inWords(err error) error {
	var held *journal.HeldError
	var newer *journal.NewerError
	switch {
	case err == nil:
		return nil
	case errors.As(err, &held):
		return said{heldWords(*held), err}
	case errors.As(err, &newer):
		return said{"a newer program wrote this store: use that one", err}
	case errors.Is(err, journal.ErrFull):
		return said{"the disk is full: free some space, then try again", err}
	case errors.Is(err, journal.ErrReadOnly):
		return said{"the folder is read-only: make it writable", err}
	case errors.Is(err, journal.ErrBusy):
		return said{"another program keeps the store busy: try again", err}
	}
	return said{strings.TrimPrefix(err.Error(), "journal: "), err}
}

func heldWords(h journal.HeldError) string {
	switch {
	case h.Elsewhere:
		return fmt.Sprintf("left open on %s (process %d, %s): if nothing runs there, open it again to take it over",
			recipe.Clean(h.Host), h.PID, h.Since.Local().Format("2 Jan 15:04"))
	case h.PID == 0:
		return "another program has it open"
	}
	words := fmt.Sprintf("process %d has it open since %s", h.PID, h.Since.Local().Format("2 Jan 15:04"))
	if host, err := os.Hostname(); err != nil || host != h.Host {
		words += " on " + recipe.Clean(h.Host)
	}
	return words
}

// printAs prints a value as text or as JSON.
func printAs[T any](a *app, asJSON bool, v T, text func(T) string, toJSON func(T) ([]byte, error)) error {
	if !asJSON {
		_, err := fmt.Fprint(a.out, text(v))
		return failed(err)
	}
	out, err := toJSON(v)
	if err == nil {
		_, err = a.out.Write(out)
	}
	return failed(err)
}

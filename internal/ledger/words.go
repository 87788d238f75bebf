package ledger

import (
	"errors"
	"strings"

	"bench/internal/journal"
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

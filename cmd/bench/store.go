package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"time"

	"bench/internal/journal"
	"bench/internal/ledger"
)

// reading opens the store to read; where there is none, there is nothing to do.
func (a *app) reading(do func(*ledger.Ledger) error) error {
	read := func(store *journal.Store, home string) error { return do(ledger.Of(store, home)) }
	return a.toRead(read, func(string) error { return nil })
}

// existing opens the store to read; that there is none is an error.
func (a *app) existing(do func(*journal.Store) error) error {
	read := func(store *journal.Store, _ string) error { return do(store) }
	return a.toRead(read, func(home string) error { return fmt.Errorf("there is no store in %s yet", home) })
}

func (a *app) toRead(do func(store *journal.Store, home string) error, none func(home string) error) error {
	home, err := a.home()
	if err != nil {
		return err
	}
	store, err := journal.Open(home, journal.Options{ReadOnly: true})
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return none(home)
	case err != nil:
		return err
	}
	return errors.Join(do(store, home), store.Close())
}

// progress gives what tells a person at a terminal how far a long work is; it
// is nil where nobody watches. It speaks at most ten times a second.
func (a *app) progress(what string) func(done, total int) {
	w, ok := a.err.(*os.File)
	if !ok || !isTerminal(w) {
		return nil
	}
	var last time.Time
	return func(done, total int) {
		if now := time.Now(); now.Sub(last) > 100*time.Millisecond {
			last = now
			_, _ = fmt.Fprintf(w, "%s: %d of %d batches\r", what, done, total)
		}
		if done == total {
			_, _ = fmt.Fprintf(w, "%*s\r", len(what)+30, "")
		}
	}
}

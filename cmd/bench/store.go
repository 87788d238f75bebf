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
	home, err := a.home()
	if err != nil {
		return err
	}
	store, err := journal.Open(home, journal.Options{ReadOnly: true})
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	l := ledger.Of(store, home)
	return errors.Join(do(l), store.Close())
}

// existing opens the store to read; that there is none is an error.
func (a *app) existing(do func(*journal.Store) error) error {
	home, err := a.home()
	if err != nil {
		return err
	}
	store, err := journal.Open(home, journal.Options{ReadOnly: true})
	if errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("there is no store in %s yet", home)
	}
	if err != nil {
		return err
	}
	return errors.Join(do(store), store.Close())
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

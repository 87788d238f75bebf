package main

import (
	"errors"
	"fmt"
	"path/filepath"
	"time"

	"bench/internal/journal"
	"bench/internal/ledger"
	"bench/internal/paper"
	"bench/internal/recipe"
)

// recordAll prints everything that can be read: the record of each batch as far
// as it is sound, and what lies after a damage as it was found. What is not
// whole is named at its place, and again in the error.
func (a *app) recordAll() error {
	var bad []error
	err := a.existing(func(s *journal.Store) error {
		return s.Salvage(func(b journal.Salvaged) error {
			bad = append(bad, a.exportBatch(b)...)
			return nil
		})
	})
	if errors.Is(err, journal.ErrCorrupt) {
		home, _ := a.home() // It was known a moment ago.
		err = fmt.Errorf("%w\nthe records that bench wrote beside the store are in %s", err, filepath.Join(home, ledger.Folder))
	}
	return errors.Join(errors.Join(bad...), err)
}

// exportBatch prints one batch, and gives what is wrong with it.
func (a *app) exportBatch(b journal.Salvaged) (wrong []error) {
	state, err := ledger.Understood(b.Sound)
	if err != nil {
		wrong = append(wrong, fmt.Errorf("batch %s: %w", b.Batch, err))
	}
	if state.Begun() {
		_, _ = fmt.Fprint(a.out, paper.RecordText(b.Batch, state, time.Local))
	} else {
		_, _ = fmt.Fprintf(a.out, "Batch %s\n", recipe.Clean(b.Batch))
	}
	a.asFound("bench does not understand these; they are whole:", b.Sound[len(state.Entries):])
	if b.Bad != nil {
		wrong = append(wrong, b.Bad)
		_, _ = fmt.Fprintf(a.out, "\nNOT WHOLE from fact %d on: %s\n", b.Bad.Seq, recipe.Clean(b.Bad.What))
		a.asFound("after the damage, as found; nobody can say that it is right:", b.Loose)
	}
	_, _ = fmt.Fprintln(a.out)
	return wrong
}

func (a *app) asFound(words string, records []journal.Record) {
	if len(records) == 0 {
		return
	}
	_, _ = fmt.Fprintf(a.out, "\n%s\n", words)
	for _, r := range records {
		_, _ = fmt.Fprintf(a.out, "%4d  %s  %s %s\n", r.Seq,
			r.Stamp.Wall.In(time.Local).Format("2006-01-02 15:04:05"), recipe.Clean(r.Kind), recipe.Clean(string(r.Body)))
	}
}

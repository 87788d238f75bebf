package main

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"slices"

	"github.com/spf13/cobra"

	"bench/internal/journal"
	"bench/internal/paper"
	"bench/internal/steps"
	"bench/internal/timer"
)

func (a *app) dueCommand() *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use:   "due",
		Short: "print the timers of the batches under way",
		Args:  cobra.NoArgs,
		RunE:  func(*cobra.Command, []string) error { return a.due(asJSON) },
	}
	c.Flags().BoolVar(&asJSON, "json", false, "print JSON")
	return c
}

func (a *app) due(asJSON bool) error {
	now, err := a.now()
	if err != nil {
		return err
	}
	var timers []paper.Timer
	err = a.reading(func(l *ledger) error {
		items, err := l.Batches()
		for _, b := range items {
			for _, t := range steps.Of(b.State).Timers {
				if !t.Seen {
					timers = append(timers, paper.Timer{Batch: b.Code, Timer: t})
				}
			}
		}
		return err
	})
	if err != nil {
		return failed(err)
	}
	at := now()
	slices.SortStableFunc(timers, func(x, y paper.Timer) int { return cmp.Compare(x.Remaining(at), y.Remaining(at)) })
	return failed(a.printTimers(timers, at, asJSON))
}

func (a *app) printTimers(timers []paper.Timer, now timer.Moment, asJSON bool) error {
	if !asJSON {
		_, err := fmt.Fprint(a.out, paper.DueText(timers, now))
		return err
	}
	out, err := paper.DueJSON(timers, now)
	if err != nil {
		return err
	}
	_, err = a.out.Write(out)
	return err
}

// reading opens the store to read; where there is none, there is nothing to do.
func (a *app) reading(do func(*ledger) error) error {
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
	l := newLedger(store, home)
	return errors.Join(do(l), store.Close())
}

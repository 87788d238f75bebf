package main

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"bench/internal/journal"
	"bench/internal/quantity"
)

func (a *app) restoreCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "restore FILE",
		Short: "put a backup in the place of the store, which is kept",
		Args:  one("restore needs one file: bench restore FILE"),
		RunE:  func(_ *cobra.Command, args []string) error { return failed(a.restore(args[0])) },
	}
}

func (a *app) restore(file string) error {
	home, err := a.home()
	if err != nil {
		return err
	}
	r, err := journal.Restore(home, file, journal.Options{}, a.progress("verified"))
	if err != nil {
		return err
	}
	words := fmt.Sprintf("restored %s with %d facts, verified and whole\n", quantity.Count(len(r.Batches), "batch", "batches"), r.Facts)
	if r.Kept != "" {
		words += fmt.Sprintf("the store that was there is kept: %s\n", r.Kept)
	}
	for _, gone := range r.Gone {
		words += fmt.Sprintf("only the kept one has %s\n", gone)
	}
	_, err = io.WriteString(a.out, words)
	return err
}

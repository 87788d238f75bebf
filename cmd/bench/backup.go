package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"bench/internal/journal"
	"bench/internal/quantity"
)

func (a *app) backupCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "backup FILE",
		Short: "copy all batches to a new file; another bench may go on meanwhile",
		Args:  one("backup needs one file: bench backup FILE"),
		RunE:  func(_ *cobra.Command, args []string) error { return failed(a.backup(args[0])) },
	}
}

func (a *app) backup(file string) error {
	return a.existing(func(s *journal.Store) error {
		check, err := s.Backup(file, a.progress("copied and read back"))
		if err != nil {
			return err
		}
		_, err = fmt.Fprintf(a.out, "%s has %s with %d facts, read back and whole\n"+
			"Recipes and workshop.yaml are files of yours: copy them too.\n", file, quantity.Count(len(check.Batches), "batch", "batches"), check.Facts)
		return err
	})
}

package main

import (
	"errors"
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"bench/internal/ledger"
	"bench/internal/paper"
)

func (a *app) findCommand() *cobra.Command {
	var q ledger.Query
	asJSON := false
	c := &cobra.Command{
		Use:   "find",
		Short: "find batches by recipe, material, lot, date or note",
		Long: `find lists the batches that fit everything that is asked, the newest first;
without a question it lists all. Recipe, material and lot may be parts of the
name; a note is found by words in it, or by how they begin. A batch that is made
of another one is found by the lots and materials of that one, too; the code of a
batch is the lot of its bars. With --lot it says how many bars were cut, where they
went and how many are left.

Exit status: 0 some were found, 1 none.`,
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error { return a.find(q, asJSON) },
	}
	c.Flags().StringVar(&q.Recipe, "recipe", "", "part of the recipe's name")
	c.Flags().StringVar(&q.Material, "material", "", "part of the name of a material that went in")
	c.Flags().StringVar(&q.Lot, "lot", "", "part of a lot that went in, or came out")
	c.Flags().StringVar(&q.Note, "note", "", "words of a note, a complaint or where bars went")
	c.Flags().StringVar(&q.From, "from", "", "begun on this day or later, such as 2026-03-02")
	c.Flags().StringVar(&q.To, "to", "", "begun on this day or earlier")
	c.Flags().BoolVar(&asJSON, "json", false, "print JSON")
	return c
}

func (a *app) find(q ledger.Query, asJSON bool) error {
	for flag, day := range map[string]string{"--from": q.From, "--to": q.To} {
		if _, err := time.Parse(time.DateOnly, day); day != "" && err != nil {
			return fmt.Errorf("%s %q is not a day like 2026-03-02", flag, day)
		}
	}
	var found []paper.Found
	err := a.reading(func(l *ledger.Ledger) (err error) {
		found, err = l.Find(q)
		return err
	})
	if err != nil && len(found) == 0 {
		return failed(err)
	}
	if err := errors.Join(printAs(a, asJSON, found, paper.FoundText, paper.FoundJSON), failed(err)); err != nil {
		return err
	}
	if len(found) == 0 {
		return problemsError{}
	}
	return nil
}

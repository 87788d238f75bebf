package main

import (
	"errors"
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"bench/internal/journal"
	"bench/internal/ledger"
	"bench/internal/paper"
)

func (a *app) verifyCommand() *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use:   "verify",
		Short: "read every fact, and say which batches are whole",
		Args:  cobra.NoArgs,
		RunE:  func(*cobra.Command, []string) error { return failed(a.verify(asJSON)) },
	}
	c.Flags().BoolVar(&asJSON, "json", false, "print JSON")
	return c
}

func (a *app) verify(asJSON bool) error {
	began := time.Now()
	home, err := a.home()
	if err != nil {
		return err
	}
	var check journal.Check
	var without []string
	err = a.existing(func(s *journal.Store) (err error) {
		if check, err = s.Verify(a.progress("verified")); err == nil {
			without, err = ledger.Uncopied(s, home)
		}
		return err
	})
	if errors.Is(err, journal.ErrCorrupt) {
		err = fmt.Errorf("%w\n%s", err, paper.DamageAdvice)
	}
	if err != nil {
		return err
	}
	err = printAs(a, asJSON, verified(check, without, time.Since(began)), paper.VerifiedText, paper.VerifiedJSON)
	if err == nil && check.Err() != nil {
		err = problemsError{}
	}
	return err
}

// verified is what was found, for printing.
func verified(check journal.Check, without []string, took time.Duration) paper.Verified {
	v := paper.Verified{
		Whole: check.Err() == nil, Facts: check.Facts, Bytes: check.Bytes, Seconds: took.Seconds(),
		File: check.File, Without: without,
	}
	for _, f := range check.Batches {
		b := paper.VerifiedBatch{Batch: f.Batch, Facts: f.Facts, Whole: f.Bad == nil}
		if f.Bad != nil {
			b.From, b.What = f.Bad.Seq, f.Bad.What
		}
		v.Batches = append(v.Batches, b)
	}
	return v
}

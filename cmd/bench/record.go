package main

import (
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"slices"

	"github.com/spf13/cobra"

	"bench/internal/batch"
	"bench/internal/files"
	"bench/internal/journal"
	"bench/internal/ledger"
	"bench/internal/paper"
	"bench/internal/recipe"
)

// recordFormats are the ways in which a record is written.
func recordFormats() []string { return []string{"text", "markdown", "pdf", "json"} }

func (a *app) recordCommand() *cobra.Command {
	format, out, all, replace := "text", "", false, false
	c := &cobra.Command{
		Use:   "record [BATCH]",
		Short: "print the record of a batch, by default the newest",
		Long: `record prints what is known of a batch: materials with lots, planned beside
actual, checks, yield, deviations and what was decided, corrections with their
first value, tests and release, and every fact with its time. With -o it is written
to a file; one that is there already is left alone unless you say --replace.`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) > 1 || all && len(args) > 0 {
				return errors.New("record takes one batch or --all: bench record [BATCH]")
			}
			return nil
		},
		RunE: func(_ *cobra.Command, args []string) error {
			if !slices.Contains(recordFormats(), format) {
				return fmt.Errorf("--format %q is none of text, markdown, pdf, json", format)
			}
			if all {
				return failed(a.recordAll())
			}
			code := ""
			if len(args) == 1 {
				code = args[0]
			}
			return failed(a.record(code, format, out, replace))
		},
	}
	c.Flags().StringVar(&format, "format", format, "text, markdown, pdf (A4) or json")
	c.Flags().StringVarP(&out, "output", "o", "", "write it to this file")
	replaceFlag(c, &replace)
	c.Flags().BoolVar(&all, "all", false, "print every batch as text, damaged ones as far as they can be read")
	return c
}

func (a *app) record(code, format, out string, replace bool) error {
	r, found, damage := a.recordOf(code)
	if !found {
		return damage
	}
	data, err := writeRecord(r, format)
	if err != nil {
		return err
	}
	if out == "" {
		_, err = a.printer(format).Write(data)
	} else {
		_, err = files.Create(out, data, files.Private, replace)
	}
	return errors.Join(err, damage)
}

// recordAll prints every batch.
func (a *app) recordAll() error {
	err := a.existing(func(s *journal.Store) error { return ledger.Export(a.out, s) })
	if errors.Is(err, journal.ErrCorrupt) {
		home, _ := a.home() // It was known a moment ago.
		err = fmt.Errorf("%w\nthe records that bench wrote beside the store are in %s", err, filepath.Join(home, ledger.Folder))
	}
	return err
}

// printer gives where a record is printed; a PDF is no text.
func (a *app) printer(format string) io.Writer {
	if format == "pdf" {
		return a.raw
	}
	return a.out
}

// recordOf gives the record of the batch of that code, or of the newest. Of a damaged one
// it gives what is sound, with the error.
func (a *app) recordOf(code string) (r paper.Record, found bool, err error) {
	code, s, damage := a.recorded(code)
	if !s.Begun() {
		return r, false, damage
	}
	err = a.reading(func(l *ledger.Ledger) (err error) {
		r, err = l.Record(code, s)
		return err
	})
	return r, true, errors.Join(err, damage)
}

func writeRecord(r paper.Record, format string) ([]byte, error) {
	switch format {
	case "markdown":
		return []byte(recipe.CleanLines(r.Markdown())), nil
	case "pdf":
		return r.PDF()
	case "json":
		return paper.RecordJSON(r)
	}
	return []byte(recipe.CleanLines(r.Text())), nil
}

// recorded gives the batch of that code, or the newest. Of a damaged one it
// gives what is sound, with the error.
func (a *app) recorded(code string) (string, batch.State, error) {
	var s batch.State
	found := false
	err := a.reading(func(l *ledger.Ledger) error {
		var err error
		if code == "" {
			if code, err = l.Newest(); err != nil || code == "" {
				return err
			}
		}
		s, err = l.State(code)
		found = s.Begun() || err != nil
		return err
	})
	switch {
	case err != nil:
		return code, s, err
	case !found && code == "":
		return code, s, errors.New("there are no batches yet")
	case !found:
		return code, s, noBatch(code)
	}
	return code, s, nil
}

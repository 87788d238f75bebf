package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"time"

	"github.com/spf13/cobra"

	"bench/internal/journal"
	"bench/internal/ledger"
)

// What to do about a store that is not whole, in this order.
const damageAdvice = `What this means: facts were changed or lost on the disk, not by bench. What to do:
  1. copy the folder as it is
  2. bench record --all > FILE   exports everything that can be read
  3. bench restore BACKUP        puts the last good copy in its place, and keeps this one
`

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
		err = fmt.Errorf("%w\n%s", err, damageAdvice)
	}
	if err != nil {
		return err
	}
	took := time.Since(began)
	if asJSON {
		err = printCheckJSON(a.out, check, without, took)
	} else {
		err = printCheck(a.out, check, without, took)
	}
	if err == nil && check.Err() != nil {
		err = problemsError{}
	}
	return err
}

func printCheck(w io.Writer, check journal.Check, without []string, took time.Duration) error {
	bad := 0
	for _, f := range check.Batches {
		words := "whole"
		if f.Bad != nil {
			bad++
			words = fmt.Sprintf("NOT WHOLE from fact %d on: %s", f.Bad.Seq, f.Bad.What)
		}
		if _, err := fmt.Fprintf(w, "%-10q %5d facts  %s\n", f.Batch, f.Facts, words); err != nil {
			return err
		}
	}
	for _, said := range check.File {
		if _, err := fmt.Fprintf(w, "the file: %q\n", said); err != nil {
			return err
		}
	}
	sum := "everything is whole"
	switch {
	case bad > 0:
		sum = fmt.Sprintf("%d NOT WHOLE", bad)
	case len(check.File) > 0:
		sum = "every batch is whole, and the file is NOT in order"
	}
	_, err := fmt.Fprintf(w, "%s, %d facts, %.1f MB, in %.1f s: %s\n",
		batches(len(check.Batches)), check.Facts, float64(check.Bytes)/1e6, took.Seconds(), sum)
	if err == nil && len(without) > 0 {
		_, err = fmt.Fprintf(w, "in records/ there is no copy, or an old one, of %s\nbench record BATCH --output FILE writes one\n", several(without))
	}
	if err == nil && check.Err() != nil {
		_, err = io.WriteString(w, damageAdvice)
	}
	return err
}

// several names a few batches and counts the rest.
func several(codes []string) string {
	const few = 5
	words := fmt.Sprintf("%q", codes[:min(few, len(codes))])
	if more := len(codes) - few; more > 0 {
		words += fmt.Sprintf(" and %d more", more)
	}
	return words
}

// The JSON of a verification; docs/json.md is its contract.
type (
	checkJSON struct {
		Whole   bool          `json:"whole"`
		Facts   int           `json:"facts"`
		Bytes   int64         `json:"bytes"`
		Seconds float64       `json:"seconds"`
		File    []string      `json:"file"`
		Batches []findingJSON `json:"batches"`
		Without []string      `json:"without_copy"`
	}
	findingJSON struct {
		Batch string `json:"batch"`
		Facts int    `json:"facts"`
		Whole bool   `json:"whole"`
		From  int    `json:"damaged_from"`
		What  string `json:"damage"`
	}
)

func printCheckJSON(w io.Writer, check journal.Check, without []string, took time.Duration) error {
	out := checkJSON{
		Whole: check.Err() == nil, Facts: check.Facts, Bytes: check.Bytes, Seconds: took.Seconds(),
		File: append([]string{}, check.File...), Batches: []findingJSON{}, Without: append([]string{}, without...),
	}
	for _, f := range check.Batches {
		found := findingJSON{Batch: f.Batch, Facts: f.Facts, Whole: f.Bad == nil}
		if f.Bad != nil {
			found.From, found.What = f.Bad.Seq, f.Bad.What
		}
		out.Batches = append(out.Batches, found)
	}
	text, err := json.MarshalIndent(out, "", "  ")
	if err != nil {
		return err
	}
	_, err = w.Write(append(text, '\n'))
	return err
}

func (a *app) backupCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "backup FILE",
		Short: "copy all batches to a new file; another bench may go on meanwhile",
		Args:  oneFile("backup"),
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
			"Recipes and workshop.yaml are files of yours: copy them too.\n", file, batches(len(check.Batches)), check.Facts)
		return err
	})
}

func (a *app) restoreCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "restore FILE",
		Short: "put a backup in the place of the store, which is kept",
		Args:  oneFile("restore"),
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
	words := fmt.Sprintf("restored %s with %d facts, verified and whole\n", batches(len(r.Batches)), r.Facts)
	if r.Kept != "" {
		words += fmt.Sprintf("the store that was there is kept: %s\n", r.Kept)
	}
	for _, gone := range r.Gone {
		words += fmt.Sprintf("only the kept one has %s\n", gone)
	}
	_, err = io.WriteString(a.out, words)
	return err
}

func batches(n int) string {
	if n == 1 {
		return "1 batch"
	}
	return fmt.Sprintf("%d batches", n)
}

func oneFile(command string) cobra.PositionalArgs {
	return func(_ *cobra.Command, args []string) error {
		if len(args) != 1 {
			return fmt.Errorf("%s needs one file: bench %s FILE", command, command)
		}
		return nil
	}
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

package main

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"bench/internal/journal"
	"bench/internal/paper"
)

// query is what batches are looked for by. Empty fields ask nothing.
type query struct {
	recipe, material, lot, note string
	from, to                    string
}

func (a *app) findCommand() *cobra.Command {
	var q query
	asJSON := false
	c := &cobra.Command{
		Use:   "find",
		Short: "find batches by recipe, material, lot, date or note",
		Long: `find lists the batches that fit everything that is asked, the newest first;
without a question it lists all. Recipe, material and lot may be parts of the
name; a note is found by words in it, or by how they begin.

Exit status: 0 some were found, 1 none.`,
		Args: cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error { return a.find(q, asJSON) },
	}
	c.Flags().StringVar(&q.recipe, "recipe", "", "part of the recipe's name")
	c.Flags().StringVar(&q.material, "material", "", "part of the name of a material that went in")
	c.Flags().StringVar(&q.lot, "lot", "", "part of a lot that went in, or came out")
	c.Flags().StringVar(&q.note, "note", "", "words of a note or a complaint")
	c.Flags().StringVar(&q.from, "from", "", "begun on this day or later, such as 2026-03-02")
	c.Flags().StringVar(&q.to, "to", "", "begun on this day or earlier")
	c.Flags().BoolVar(&asJSON, "json", false, "print JSON")
	return c
}

func (a *app) find(q query, asJSON bool) error {
	for flag, day := range map[string]string{"--from": q.from, "--to": q.to} {
		if _, err := time.Parse(time.DateOnly, day); day != "" && err != nil {
			return fmt.Errorf("%s %q is not a day like 2026-03-02", flag, day)
		}
	}
	var found []paper.Found
	err := a.reading(func(l *ledger) (err error) {
		found, err = search(l.store, q)
		return err
	})
	if err != nil {
		return failed(err)
	}
	if err := a.printFound(found, asJSON); err != nil {
		return failed(err)
	}
	if len(found) == 0 {
		return problemsError{}
	}
	return nil
}

func (a *app) printFound(found []paper.Found, asJSON bool) error {
	if !asJSON {
		_, err := fmt.Fprint(a.out, paper.FoundText(found))
		return err
	}
	out, err := paper.FoundJSON(found)
	if err != nil {
		return err
	}
	_, err = a.out.Write(out)
	return err
}

// search looks batches up by their terms; none of their facts is read, so that
// it takes as long for short batches as for long ones.
func search(store *journal.Store, q query) ([]paper.Found, error) {
	recipes, err := recipesOf(store)
	if err != nil {
		return nil, err
	}
	fits, err := fitting(store, q)
	if err != nil {
		return nil, err
	}
	heads, err := store.Batches()
	if err != nil {
		return nil, err
	}
	underWay, err := store.UnderWay()
	if err != nil {
		return nil, err
	}
	open := map[string]bool{}
	for _, h := range underWay {
		open[h.Batch] = true
	}
	var found []paper.Found
	for _, h := range heads {
		day := h.First.Wall.Format(time.DateOnly) // The day that it was for the maker, wherever that was.
		if fits(h.Batch) && (q.from == "" || day >= q.from) && (q.to == "" || day <= q.to) {
			found = append(found, paper.Found{Batch: h.Batch, Recipe: recipes[h.Batch], Begun: day, Last: h.Last.Wall.Format(time.DateOnly), Facts: h.Seq, UnderWay: open[h.Batch]})
		}
	}
	return found, nil
}

// recipesOf gives each batch's recipe, in lower case as it is searched by.
func recipesOf(store *journal.Store) (map[string]string, error) {
	of := map[string]string{}
	err := store.Tagged(recipeTerm, func(term, code string) { of[code] = strings.TrimPrefix(term, recipeTerm) })
	return of, err
}

// fitting gives the test that a batch passes if it has all that is asked.
func fitting(store *journal.Store, q query) (func(code string) bool, error) {
	var sets []map[string]bool
	ask := func(kind string, match func(value string) bool) error {
		set, err := having(store, kind, match)
		sets = append(sets, set)
		return err
	}
	var errs []error
	for _, part := range []struct{ kind, asked string }{{recipeTerm, q.recipe}, {materialTerm, q.material}, {lotTerm, q.lot}} {
		if asked := strings.ToLower(strings.TrimSpace(part.asked)); asked != "" {
			errs = append(errs, ask(part.kind, func(value string) bool { return strings.Contains(strings.ToLower(value), asked) }))
		}
	}
	for _, word := range wordsOf(q.note) {
		errs = append(errs, ask(noteTerm, func(value string) bool { return strings.HasPrefix(value, word) }))
	}
	return func(code string) bool {
		for _, set := range sets {
			if !set[code] {
				return false
			}
		}
		return true
	}, errors.Join(errs...)
}

// having gives the batches with a term of that kind that matches. What is
// carried by many batches is read once, not once a batch.
func having(store *journal.Store, kind string, match func(value string) bool) (map[string]bool, error) {
	terms, err := store.Terms(kind)
	if err != nil {
		return nil, err
	}
	set := map[string]bool{}
	for _, t := range terms {
		if !match(strings.TrimPrefix(t, kind)) {
			continue
		}
		err := store.Tagged(t, func(term, code string) {
			if term == t {
				set[code] = true
			}
		})
		if err != nil {
			return nil, err
		}
	}
	return set, nil
}

package ledger

import (
	"errors"
	"maps"
	"strings"
	"time"

	"bench/internal/journal"
	"bench/internal/paper"
)

// Query is what batches are looked for by. Empty fields ask nothing; days are like
// 2026-03-02.
type Query struct {
	Recipe, Material, Lot, Note string
	From, To                    string
}

// Find looks batches up by their terms; none of their facts is read, so that it
// takes as long for short batches as for long ones.
func (l *Ledger) Find(q Query) ([]paper.Found, error) {
	recipes, err := l.recipes()
	if err != nil {
		return nil, err
	}
	fits, err := l.fitting(q)
	if err != nil {
		return nil, err
	}
	heads, err := l.store.Batches()
	if err != nil {
		return nil, err
	}
	var found []paper.Found
	for _, h := range heads {
		day := h.First.Format(time.DateOnly) // The day that it was for the maker, wherever that was.
		if fits(h.Batch) && (q.From == "" || day >= q.From) && (q.To == "" || day <= q.To) {
			found = append(found, paper.Found{Batch: h.Batch, Recipe: recipes[h.Batch], Begun: day, Last: h.Last.Format(time.DateOnly), Facts: h.Seq, UnderWay: !h.Ended})
		}
	}
	return found, nil
}

// recipes gives each batch's recipe, in lower case as it is searched by.
func (l *Ledger) recipes() (map[string]string, error) {
	of := map[string]string{}
	err := l.store.Tagged(recipeTerm, func(term, code string) { of[code] = strings.TrimPrefix(term, recipeTerm) })
	return of, err
}

// fitting gives the test that a batch passes if it has all that is asked.
func (l *Ledger) fitting(q Query) (func(code string) bool, error) {
	var sets []map[string]bool
	ask := func(kind string, match func(value string) bool) error {
		set, err := l.having(kind, match)
		sets = append(sets, set)
		return err
	}
	var errs []error
	for _, part := range []struct{ kind, asked string }{{recipeTerm, q.Recipe}, {materialTerm, q.Material}, {lotTerm, q.Lot}} {
		if asked := strings.ToLower(strings.TrimSpace(part.asked)); asked != "" {
			errs = append(errs, ask(part.kind, func(value string) bool { return strings.Contains(strings.ToLower(value), asked) }))
		}
	}
	for _, word := range wordsOf(q.Note) {
		set, err := l.noting(word)
		sets, errs = append(sets, set), append(errs, err)
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
func (l *Ledger) having(kind string, match func(value string) bool) (map[string]bool, error) {
	terms, err := l.store.Terms(kind)
	if err != nil {
		return nil, err
	}
	set := map[string]bool{}
	for _, t := range terms {
		if !match(strings.TrimPrefix(t, kind)) {
			continue
		}
		codes, err := l.store.Search(t)
		if err != nil {
			return nil, err
		}
		for _, code := range codes {
			set[code] = true
		}
	}
	return set, nil
}

// noting gives the batches with a note that has a word which begins like that.
func (l *Ledger) noting(word string) (map[string]bool, error) {
	set := map[string]bool{}
	err := l.store.Tagged(noteTerm+word, func(_, code string) { set[code] = true })
	return set, err
}

// ended gives the newest of the closed batches, so many at most. With words, it
// gives those that have each of them somewhere: in the code, recipe, a material,
// a lot or a note.
func (l *Ledger) ended(words string, most int) ([]journal.Head, error) {
	asked := strings.Fields(strings.ToLower(words))
	if len(asked) == 0 {
		return l.store.Ended(most)
	}
	var sets []map[string]bool
	for _, word := range asked {
		set, err := l.mentioning(word)
		if err != nil {
			return nil, err
		}
		sets = append(sets, set)
	}
	fits := func(code string) bool {
		for i, word := range asked {
			if !sets[i][code] && !strings.Contains(strings.ToLower(code), word) {
				return false
			}
		}
		return true
	}
	heads, err := l.store.Batches()
	var found []journal.Head
	for _, h := range heads {
		if h.Ended && len(found) < most && fits(h.Batch) {
			found = append(found, h)
		}
	}
	return found, err
}

// mentioning gives the batches that have a word in their recipe, a material, a
// lot or a note.
func (l *Ledger) mentioning(word string) (map[string]bool, error) {
	all, err := l.noting(word)
	for _, kind := range []string{recipeTerm, materialTerm, lotTerm} {
		set, e := l.having(kind, func(value string) bool { return strings.Contains(strings.ToLower(value), word) })
		maps.Copy(all, set)
		err = errors.Join(err, e)
	}
	return all, err
}

package ledger

import (
	"errors"
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
		through, ok := fits(h.Batch)
		if ok && (q.From == "" || day >= q.From) && (q.To == "" || day <= q.To) {
			found = append(found, paper.Found{
				Batch: h.Batch, Recipe: recipes[h.Batch], Begun: day, Last: h.Last.Format(time.DateOnly), Facts: h.Seq, UnderWay: !h.Ended, Through: through,
			})
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

// fitting gives the test that a batch passes if it has all that is asked, with the batches
// through which it has that.
func (l *Ledger) fitting(q Query) (func(code string) (through []string, ok bool), error) {
	var sets []reach
	var errs []error
	if asked := asked(q.Recipe); asked != "" {
		codes, err := l.having(recipeTerm, func(value string) bool { return strings.Contains(value, asked) })
		sets, errs = append(sets, direct(codes)), append(errs, err)
	}
	for kind, part := range map[string]string{materialTerm: q.Material, lotTerm: q.Lot} {
		if asked := asked(part); asked != "" {
			set, err := l.holding(kind, asked)
			sets, errs = append(sets, set), append(errs, err)
		}
	}
	for _, word := range wordsOf(q.Note) {
		codes, err := l.noting(word)
		sets, errs = append(sets, direct(codes)), append(errs, err)
	}
	return all(sets), errors.Join(errs...)
}

// asked is a part of a name as it is searched by.
func asked(part string) string { return strings.ToLower(strings.TrimSpace(part)) }

// all gives the test that a batch passes if each of the sets has it.
func all(sets []reach) func(code string) (through []string, ok bool) {
	return func(code string) (through []string, ok bool) {
		through = []string{}
		for _, set := range sets {
			way, ok := set[code]
			if !ok {
				return nil, false
			}
			if len(way) > len(through) {
				through = way
			}
		}
		return through, true
	}
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

// noting gives the batches with a note that has a word which begins like that, or which
// say so of a batch that they are made of.
func (l *Ledger) noting(word string) (map[string]bool, error) {
	set := map[string]bool{}
	add := func(_, code string) { set[code] = true }
	return set, errors.Join(l.store.Tagged(noteTerm+word, add), l.store.Tagged(reworkTerm+strings.ToUpper(word), add))
}

// ended gives the newest of the closed batches, so many at most. With words, it
// gives those that have each of them somewhere: in the code, recipe, a material,
// a lot or a note.
func (l *Ledger) ended(words string, most int) ([]journal.Head, error) {
	asked := strings.Fields(strings.ToLower(words))
	if len(asked) == 0 {
		return l.store.Ended(most)
	}
	var sets []reach
	for _, word := range asked {
		set, err := l.mentioning(word)
		if err != nil {
			return nil, err
		}
		sets = append(sets, set)
	}
	fits := func(code string) bool {
		for i, word := range asked {
			if _, ok := sets[i][code]; !ok && !strings.Contains(strings.ToLower(code), word) {
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
// lot or a note, and those made of one that has the material or the lot.
func (l *Ledger) mentioning(word string) (reach, error) {
	noted, err := l.noting(word)
	named, err2 := l.having(recipeTerm, func(value string) bool { return strings.Contains(value, word) })
	r := direct(noted)
	r.add(direct(named))
	for _, kind := range []string{materialTerm, lotTerm} {
		set, e := l.holding(kind, word)
		r.add(set)
		err = errors.Join(err, e)
	}
	return r, errors.Join(err, err2)
}

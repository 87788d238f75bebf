package ledger

import (
	"errors"
	"maps"
	"strings"
	"time"

	"bench/internal/front"
	"bench/internal/journal"
	"bench/internal/paper"
)

// Query is what batches are looked for by. Empty fields ask nothing; days are like
// 2026-03-02.
type Query struct {
	Recipe, Material, Lot, Note string
	From, To                    string
}

// Find looks batches up by their terms. Only those that a lot is found in are read, for
// who asks that asks where the bars went; one that cannot be read whole is in the error.
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
	var unread []error
	for _, h := range heads {
		day := h.First.Format(time.DateOnly) // The day that it was for the maker, wherever that was.
		through, ok := fits(h.Batch)
		if ok && (q.From == "" || day >= q.From) && (q.To == "" || day <= q.To) {
			f := paper.Found{
				Batch: h.Batch, Recipe: recipes[h.Batch], Begun: day, Last: h.Last.Format(time.DateOnly), Facts: h.Seq, UnderWay: !h.Ended, Through: through,
			}
			if asked(q.Lot) != "" {
				s, err := l.State(h.Batch)
				f.Bars, unread = barsOf(s), append(unread, err)
			}
			found = append(found, f)
		}
	}
	return found, errors.Join(unread...)
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
		made, err2 := l.tagged(reworkTerm + strings.ToUpper(word)) // That it is made of a batch is a note as well.
		maps.Copy(codes, made)
		sets, errs = append(sets, direct(codes)), append(errs, err, err2)
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

// noting gives the batches with a note that has a word which begins like that.
func (l *Ledger) noting(word string) (map[string]bool, error) { return l.tagged(noteTerm + word) }

func (l *Ledger) tagged(prefix string) (map[string]bool, error) {
	set := map[string]bool{}
	err := l.store.Tagged(prefix, func(_, code string) { set[code] = true })
	return set, err
}

// looked gives the newest of the closed batches that have each of the words somewhere, in
// the code, recipe, a material, a lot or a note, so many at most; and of those under way
// all that have them.
func (l *Ledger) looked(words string, most int) (closed []journal.Head, past front.Past, err error) {
	past = front.Past{Words: words, Through: map[string][]string{}}
	heads, err := l.store.Batches()
	var sets []reach
	for _, word := range strings.Fields(strings.ToLower(words)) {
		set, e := l.mentioning(word)
		for _, h := range heads {
			if strings.Contains(strings.ToLower(h.Batch), word) {
				set[h.Batch] = nil
			}
		}
		sets, err = append(sets, set), errors.Join(err, e)
	}
	fits := all(sets)
	for _, h := range heads {
		through, ok := fits(h.Batch)
		switch {
		case !ok || h.Ended && len(closed) == most:
			continue
		case h.Ended:
			closed = append(closed, h)
		default:
			past.UnderWay = append(past.UnderWay, h.Batch)
		}
		past.Through[h.Batch] = through
	}
	return closed, past, err
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

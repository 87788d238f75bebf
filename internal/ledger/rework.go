package ledger

import (
	"errors"
	"slices"
	"strings"
	"time"

	"bench/internal/batch"
	"bench/internal/journal"
	"bench/internal/paper"
)

// reworkTerm is carried by a batch that is made of an earlier one, with that one's code.
const reworkTerm = "rework:"

// reach are the batches that a question finds. A batch that has itself what was asked has
// nothing between; one that is made of such a batch has the codes of those that lead to it,
// what it is made of first.
type reach map[string][]string

// direct is the reach of batches that have it themselves.
func direct(codes map[string]bool) reach {
	r := reach{}
	for code := range codes {
		r[code] = nil
	}
	return r
}

// follow adds what was made of the batches found, and what of those in turn, by the
// shortest way. Each is reached once, so that batches made of each other end it.
func (l *Ledger) follow(r reach) error {
	into := map[string][]string{}
	err := l.store.Tagged(reworkTerm, func(term, code string) {
		of := strings.TrimPrefix(term, reworkTerm)
		into[of] = append(into[of], code)
	})
	next := make([]string, 0, len(r))
	for code := range r {
		next = append(next, code)
	}
	slices.Sort(next) // Of two ways that are as long, always the same one is told.
	for len(next) > 0 {
		of := next[0]
		next = next[1:]
		for _, code := range into[of] {
			if _, known := r[code]; !known {
				r[code] = append([]string{of}, r[of]...)
				next = append(next, code)
			}
		}
	}
	return err
}

// add takes in what another question reached, each batch by its shorter way.
func (r reach) add(other reach) {
	for code, way := range other {
		if mine, known := r[code]; !known || len(way) < len(mine) {
			r[code] = way
		}
	}
}

// holding gives the batches with a material or a lot that matches, and those made of them.
// A batch's whole code is the lot of its bars.
func (l *Ledger) holding(kind, asked string) (reach, error) {
	codes, err := l.having(kind, func(value string) bool { return strings.Contains(strings.ToLower(value), asked) })
	r := direct(codes)
	r[strings.ToUpper(asked)] = nil // A code that no batch has leads nowhere.
	return r, errors.Join(err, l.follow(r))
}

// Record is the record of a batch, with the batches that were made of it. It looks at the
// store alone, so that it may run beside the other methods.
func (l *Ledger) Record(code string, s batch.State) (paper.Record, error) {
	return recordOf(l.store, code, s)
}

func recordOf(store *journal.Store, code string, s batch.State) (paper.Record, error) {
	r := paper.RecordOf(code, s, time.Local)
	codes, err := store.Search(reworkTerm + code)
	for _, made := range codes {
		records, unread := store.Records(made)
		state, unknown := understood(records)
		says := func(f batch.Told[batch.Reworks]) bool { return f.Fact.Batch == code }
		// What cannot be read whole may say so.
		if unread != nil || unknown != nil || slices.ContainsFunc(batch.All[batch.Reworks](state), says) {
			r.MadeInto = append(r.MadeInto, made)
		}
	}
	return r, err
}

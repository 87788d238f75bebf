// Package memory is a store that keeps facts as long as a test runs.
//
// The rule: it answers as the ledger does, and fails only when told to.
package memory

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"bench/internal/batch"
	"bench/internal/front"
	"bench/internal/judge"
	"bench/internal/recipe"
	"bench/internal/timer"
)

// Store is a store in memory, for one test.
type Store struct {
	Codes   []string // Codes are those of the batches, the oldest first.
	Entries map[string][]batch.Entry
	Held    map[string]bool   // Held are the batches that were opened.
	HeldBy  map[string]string // HeldBy says who else has a batch.
	Fail    error             // Fail is what every write comes to, or nil.
	Says    string            // Says is the next remark.
}

// New makes an empty store.
func New() *Store {
	return &Store{Entries: map[string][]batch.Entry{}, Held: map[string]bool{}, HeldBy: map[string]string{}}
}

func (s *Store) listed(closed bool) []front.BatchItem {
	var items []front.BatchItem
	for _, code := range s.Codes {
		if state := batch.Fold(s.Entries[code]); state.Closed() == closed {
			items = append(items, front.BatchItem{Code: code, State: state, HeldBy: s.HeldBy[code]})
		}
	}
	return items
}

// Batches is front.Store's, as the rest is but Facts.
func (s *Store) Batches() ([]front.BatchItem, error) { return s.listed(false), nil }

// Empty says that nothing was ever begun.
func (s *Store) Empty() bool { return len(s.Codes) == 0 }

// Closed looks for words in codes only, and has room for three.
func (s *Store) Closed(words string) (front.Past, error) {
	without := func(b front.BatchItem) bool { return !strings.Contains(b.Code, words) }
	all := slices.DeleteFunc(s.listed(true), without)
	slices.Reverse(all)
	past := front.Past{Batches: all[:min(3, len(all))], Words: words, More: len(all) > 3}
	if words != "" {
		for _, b := range slices.DeleteFunc(s.listed(false), without) {
			past.UnderWay = append(past.UnderWay, b.Code)
		}
	}
	return past, nil
}

// Start begins a batch.
func (s *Store) Start(c recipe.Control, at timer.Moment) (string, batch.Entry, error) {
	if s.Fail != nil {
		return "", batch.Entry{}, s.Fail
	}
	code := fmt.Sprintf("26K25%c", 'A'+len(s.Codes))
	s.Codes = append(s.Codes, code)
	s.Held[code] = true
	first, err := s.Append(code, batch.Started{Control: c}, at)
	return code, first, err
}

// Open takes hold of a batch, once.
func (s *Store) Open(code string, _ timer.Moment) ([]batch.Entry, error) {
	if who := s.HeldBy[code]; who != "" {
		return nil, errors.New(who)
	}
	if s.Held[code] {
		return nil, fmt.Errorf("batch %s is held already", code)
	}
	s.Held[code] = true
	return slices.Clone(s.Entries[code]), nil
}

// Follow reads a batch that another has.
func (s *Store) Follow(code string) ([]batch.Entry, string, error) {
	return slices.Clone(s.Entries[code]), s.HeldBy[code], s.Fail
}

// Append keeps a fact of a batch that is held.
func (s *Store) Append(code string, f batch.Fact, at timer.Moment) (batch.Entry, error) {
	switch {
	case s.Fail != nil:
		return batch.Entry{}, s.Fail
	case !s.Held[code]:
		return batch.Entry{}, fmt.Errorf("batch %s is not held", code)
	}
	if made, ok := f.(batch.Reworks); ok {
		if err := judge.Reworkable(code, made, batch.Fold(s.Entries[made.Batch])); err != nil {
			return batch.Entry{}, &front.RefusedError{Why: err}
		}
	}
	e := batch.Entry{Seq: len(s.Entries[code]) + 1, At: at, Fact: f}
	s.Entries[code] = append(s.Entries[code], e)
	return e, nil
}

// Release lets go of a batch that is held.
func (s *Store) Release(code string) error {
	if !s.Held[code] {
		return fmt.Errorf("batch %s is not held", code)
	}
	delete(s.Held, code)
	return nil
}

// Remark gives what it was told to say, once.
func (s *Store) Remark() string {
	defer func() { s.Says = "" }()
	return s.Says
}

// Facts gives all facts of a batch, without its first.
func (s *Store) Facts(code string) []batch.Fact {
	var out []batch.Fact
	for _, e := range s.Entries[code] {
		if _, first := e.Fact.(batch.Started); !first {
			out = append(out, e.Fact)
		}
	}
	return out
}

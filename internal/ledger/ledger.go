// Package ledger is the store as the rest of bench sees it: batches of facts, not
// records. It lends batches to be worked, lists them, finds them again, and copies
// each one's record as plain text beside the store.
//
// The rule: what it hands back was read from the store or is on disk; an error says in
// one line what to do.
package ledger

import (
	"errors"
	"fmt"
	"sync"
	"time"

	"bench/internal/batch"
	"bench/internal/front"
	"bench/internal/journal"
	"bench/internal/judge"
	"bench/internal/recipe"
	"bench/internal/steps"
	"bench/internal/timer"
)

// Ledger is the batches of one store. Its methods are called one at a time.
type Ledger struct {
	store *journal.Store
	home  string
	open  map[string]*openBatch
	// elsewhere are batches that were said to be open on another machine; who
	// opens one once more takes it over.
	elsewhere map[string]bool
	copies    copies
}

// openBatch is a batch that this program writes.
type openBatch struct {
	writer *journal.Writer
	state  batch.State
	stages int  // stages counts those that are done; the copy knows them.
	stale  bool // stale says that the copy lacks something.
	copy   sync.WaitGroup
}

// Of gives the ledger of a store; the copies go into the folder home.
func Of(store *journal.Store, home string) *Ledger {
	return &Ledger{store: store, home: home, open: map[string]*openBatch{}, elsewhere: map[string]bool{}}
}

// Start begins a batch under the first free code of its day.
func (l *Ledger) Start(c recipe.Control, at timer.Moment) (string, batch.Entry, error) {
	code, first, err := l.start(c, at)
	return code, first, inWords(err)
}

func (l *Ledger) start(c recipe.Control, at timer.Moment) (string, batch.Entry, error) {
	for n := range 26 * 26 {
		code := codeOf(at.Wall, n)
		err := l.take(code, at)
		var held *journal.HeldError
		var newer newerBatchError
		if errors.As(err, &held) || errors.As(err, &newer) {
			continue // Another bench begins or works one under this code.
		}
		if err != nil {
			return "", batch.Entry{}, err
		}
		if l.open[code].state.Begun() {
			if err := l.Release(code); err != nil {
				return "", batch.Entry{}, err
			}
			continue
		}
		entry, err := l.append(code, batch.Started{Control: c}, at)
		if err != nil {
			return "", batch.Entry{}, errors.Join(err, l.Release(code))
		}
		return code, entry, nil
	}
	return "", batch.Entry{}, fmt.Errorf("every batch code of %s is in use", at.Wall.Format(time.DateOnly))
}

// codeOf names the n-th batch of a day: the date, then A to Z, AA to AZ ...
func codeOf(day time.Time, n int) string {
	letters := string(rune('A' + n%26))
	if n >= 26 {
		letters = string(rune('A'+n/26-1)) + letters
	}
	return day.Format("060102") + letters
}

// take takes hold of a batch and reads it.
func (l *Ledger) take(code string, at timer.Moment) error {
	if l.open[code] != nil {
		return nil
	}
	hold := l.store.Hold
	if l.elsewhere[code] {
		hold = l.store.TakeOver
	}
	w, err := hold(code, stampOf(at))
	if err != nil {
		return err
	}
	state, err := l.State(code)
	if err != nil {
		return errors.Join(err, w.Release())
	}
	l.open[code] = &openBatch{writer: w, state: state, stages: stagesDone(state)}
	return nil
}

// Open takes hold of a batch and gives its facts.
func (l *Ledger) Open(code string, at timer.Moment) ([]batch.Entry, error) {
	err := l.take(code, at)
	var held *journal.HeldError
	if errors.As(err, &held) && held.Elsewhere {
		l.elsewhere[code] = true
	}
	if err != nil {
		return nil, inWords(err)
	}
	delete(l.elsewhere, code)
	return l.open[code].state.Entries, nil
}

// Follow reads a batch that another bench has, and says who has it.
func (l *Ledger) Follow(code string) ([]batch.Entry, string, error) {
	by, _ := l.holder(code) // Asked first: what is let go meanwhile is seen next time.
	state, err := l.State(code)
	return state.Entries, by, inWords(err)
}

// Append keeps a fact. When it ends a stage or changes what was said, the record in
// plain text is written again, too; nobody waits for that but the next fact.
func (l *Ledger) Append(code string, f batch.Fact, at timer.Moment) (batch.Entry, error) {
	entry, err := l.append(code, f, at)
	return entry, inWords(err)
}

// reworkable refuses a fact that points at a batch which is not there, or was less.
func (l *Ledger) reworkable(code string, f batch.Fact) error {
	made, ok := f.(batch.Reworks)
	if !ok {
		return nil
	}
	earlier, err := l.State(made.Batch)
	if err != nil {
		return &front.RefusedError{Why: fmt.Errorf("batch %s cannot be read: %w", made.Batch, inWords(err))}
	}
	if err := judge.Reworkable(code, made, earlier); err != nil {
		return &front.RefusedError{Why: err}
	}
	return nil
}

func (l *Ledger) append(code string, f batch.Fact, at timer.Moment) (batch.Entry, error) {
	b := l.open[code]
	if b == nil {
		return batch.Entry{}, fmt.Errorf("batch %s is not open", code)
	}
	if err := l.reworkable(code, f); err != nil {
		return batch.Entry{}, err
	}
	kind, body, err := batch.Encode(f)
	if err != nil {
		return batch.Entry{}, err
	}
	r, err := b.writer.Append(kind, body, termsOf(b.state.Control, f), stampOf(at))
	if err != nil {
		return batch.Entry{}, err
	}
	entry := batch.Entry{Seq: r.Seq, At: momentOf(r.Stamp), Fact: f}
	b.copy.Wait() // It reads the state.
	b.state = b.state.Apply(entry)
	b.stale = true
	b.copy.Go(func() {
		l.copyEarlier(f)
		if done := stagesDone(b.state); done != b.stages || changes(f) || b.state.Ended() {
			b.stages = done
			l.copy(code, b)
		}
	})
	return entry, nil
}

// changes says that a fact makes another one read otherwise.
func changes(f batch.Fact) bool {
	switch f.(type) {
	case batch.Corrected, batch.Withdrawn:
		return true
	default:
		return false
	}
}

// copy writes the record in plain text.
func (l *Ledger) copy(code string, b *openBatch) {
	l.write(code, b.state)
	b.stale = false
}

func (l *Ledger) write(code string, s batch.State) {
	r, _ := l.Record(code, s) // What cannot be searched is told where it is looked for.
	l.copies.write(l.home, code, r.Text())
}

// copyEarlier writes the record of a batch again that one is said to be made of.
func (l *Ledger) copyEarlier(f batch.Fact) {
	if made, ok := f.(batch.Reworks); ok {
		if earlier, err := l.State(made.Batch); err == nil {
			l.write(made.Batch, earlier)
		}
	}
}

// Remark gives what there is to say beside the facts, once.
func (l *Ledger) Remark() string { return l.copies.take() }

func stagesDone(s batch.State) int {
	if !s.Begun() {
		return 0
	}
	done := 0
	for _, st := range steps.Of(s).Stages {
		if st.Done {
			done++
		}
	}
	return done
}

// Release lets go of a batch. What the record in plain text lacks is added.
func (l *Ledger) Release(code string) error {
	b := l.open[code]
	if b == nil {
		return nil
	}
	b.copy.Wait()
	if b.stale {
		l.copy(code, b)
	}
	delete(l.open, code)
	return inWords(b.writer.Release())
}

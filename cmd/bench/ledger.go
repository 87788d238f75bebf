package main

import (
	"errors"
	"fmt"
	"os"
	"sync"
	"time"

	"bench/internal/batch"
	"bench/internal/front"
	"bench/internal/journal"
	"bench/internal/recipe"
	"bench/internal/steps"
	"bench/internal/timer"
)

// ledger is the store as the screen sees it: batches of facts, not records.
type ledger struct {
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
	stages int // stages counts those that are done; the copy knows them.
	copy   sync.WaitGroup
}

func newLedger(store *journal.Store, home string) *ledger {
	return &ledger{store: store, home: home, open: map[string]*openBatch{}, elsewhere: map[string]bool{}}
}

// Batches gives the batches that are not closed, the newest first. One that
// cannot be read whole is listed as far as it is sound, and named in the error.
func (l *ledger) Batches() ([]front.BatchItem, error) {
	heads, err := l.store.UnderWay()
	if err != nil {
		return nil, err
	}
	return l.items(heads)
}

// Empty says that no batch was ever begun. A store that cannot tell is not taken
// for empty.
func (l *ledger) Empty() bool {
	newest, err := l.store.Newest()
	return err == nil && newest == ""
}

// shelf is how many closed batches are given at a time: each is read whole.
const shelf = 20

// Closed gives the batches that are closed and have all those words, the newest
// first, and no more than a shelf has room for.
func (l *ledger) Closed(words string) (front.Past, error) {
	heads, err := ended(l.store, words, shelf+1)
	if err != nil {
		return front.Past{}, err
	}
	items, err := l.items(heads[:min(shelf, len(heads))])
	return front.Past{Batches: items, Words: words, More: len(heads) > shelf}, err
}

func (l *ledger) items(heads []journal.Head) (items []front.BatchItem, err error) {
	var errs []error
	for _, h := range heads {
		state, err := l.state(h.Batch)
		errs = append(errs, err)
		if state.Begun() && state.Closed() == h.Ended {
			items = append(items, front.BatchItem{Code: h.Batch, State: state, HeldBy: l.heldBy(h.Batch), Left: l.left(h.Batch)})
		}
	}
	return items, errors.Join(errs...)
}

// state folds what is kept of a batch. Of one that was begun under newer rules
// nothing is given: what would be shown could be wrong.
func (l *ledger) state(code string) (batch.State, error) {
	records, err := l.store.Records(code)
	state, unknown := understood(records)
	if unknown != nil && !state.Begun() {
		unknown = newerBatchError{code, unknown}
	}
	return state, errors.Join(err, unknown)
}

// newerBatchError says that a batch is for a newer program.
type newerBatchError struct {
	code string
	err  error
}

func (e newerBatchError) Error() string { return fmt.Sprintf("batch %s: %v", e.code, e.err) }

// heldBy says in words who else writes a batch, or "".
func (l *ledger) heldBy(code string) string {
	if l.open[code] != nil {
		return ""
	}
	h, ok := l.store.Holder(code)
	if !ok || !h.Runs {
		return ""
	}
	return heldWords(journal.HeldError{PID: h.PID, Host: h.Host, Since: h.Since})
}

// entriesOf decodes records up to the first that this program does not know.
func entriesOf(records []journal.Record) ([]batch.Entry, error) {
	entries := make([]batch.Entry, 0, len(records))
	for _, r := range records {
		fact, err := batch.Decode(r.Kind, r.Body)
		if err != nil {
			return entries, fmt.Errorf("batch %s, fact %d: %w", r.Batch, r.Seq, err)
		}
		entries = append(entries, batch.Entry{Seq: r.Seq, At: momentOf(r.Stamp), Fact: fact})
	}
	return entries, nil
}

func momentOf(s journal.Stamp) timer.Moment {
	return timer.Moment{Wall: s.Wall, Boot: s.BootID, SinceBoot: s.SinceBoot}
}

func stampOf(m timer.Moment) journal.Stamp {
	return journal.Stamp{Wall: m.Wall, BootID: m.Boot, SinceBoot: m.SinceBoot}
}

// left says in words who left a batch without letting go, or "".
func (l *ledger) left(code string) string {
	h, ok := l.store.Holder(code)
	if !ok || h.Runs || l.open[code] != nil {
		return ""
	}
	if host, err := os.Hostname(); err != nil || host != h.Host {
		return "left open on " + h.Host
	}
	return fmt.Sprintf("process %d ended without closing it", h.PID)
}

// Start begins a batch under the first free code of its day.
func (l *ledger) Start(c recipe.Control, at timer.Moment) (string, batch.Entry, error) {
	code, first, err := l.start(c, at)
	return code, first, inWords(err)
}

func (l *ledger) start(c recipe.Control, at timer.Moment) (string, batch.Entry, error) {
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
func (l *ledger) take(code string, at timer.Moment) error {
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
	state, err := l.state(code)
	if err != nil {
		return errors.Join(err, w.Release())
	}
	l.open[code] = &openBatch{writer: w, state: state, stages: stagesDone(state)}
	return nil
}

// Open takes hold of a batch and gives its facts.
func (l *ledger) Open(code string, at timer.Moment) ([]batch.Entry, error) {
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
func (l *ledger) Follow(code string) ([]batch.Entry, string, error) {
	by := l.heldBy(code) // Asked first: what is let go meanwhile is seen next time.
	state, err := l.state(code)
	return state.Entries, by, inWords(err)
}

// Append keeps a fact. When it ends a stage, the record in plain text is
// written again, too; nobody waits for that but the next fact.
func (l *ledger) Append(code string, f batch.Fact, at timer.Moment) (batch.Entry, error) {
	entry, err := l.append(code, f, at)
	return entry, inWords(err)
}

func (l *ledger) append(code string, f batch.Fact, at timer.Moment) (batch.Entry, error) {
	b := l.open[code]
	if b == nil {
		return batch.Entry{}, fmt.Errorf("batch %s is not open", code)
	}
	kind, body, err := batch.Encode(f)
	if err != nil {
		return batch.Entry{}, err
	}
	r, err := b.writer.Append(kind, body, termsOf(f), stampOf(at))
	if err != nil {
		return batch.Entry{}, err
	}
	entry := batch.Entry{Seq: r.Seq, At: momentOf(r.Stamp), Fact: f}
	b.copy.Wait() // It reads the state.
	b.state = b.state.Apply(entry)
	b.copy.Go(func() {
		if done := stagesDone(b.state); done != b.stages || b.state.Closed() {
			b.stages = done
			l.copies.write(l.home, code, b.state)
		}
	})
	return entry, nil
}

// Remark gives what there is to say beside the facts, once.
func (l *ledger) Remark() string { return l.copies.take() }

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

// Release lets go of a batch.
func (l *ledger) Release(code string) error {
	b := l.open[code]
	if b == nil {
		return nil
	}
	b.copy.Wait()
	delete(l.open, code)
	return inWords(b.writer.Release())
}

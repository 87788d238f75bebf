package ledger

import (
	"errors"
	"fmt"

	"bench/internal/batch"
	"bench/internal/journal"
	"bench/internal/recipe"
	"bench/internal/timer"
)

// State folds what is kept of a batch. Of one that was begun under newer rules
// nothing is given: what would be shown could be wrong.
func (l *Ledger) State(code string) (batch.State, error) {
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

// understood folds facts as far as this program knows what they mean.
func understood(records []journal.Record) (batch.State, error) {
	entries, err := entriesOf(records)
	state := batch.Fold(entries)
	if newer := newerPlan(state); newer != nil {
		return batch.State{}, newer
	}
	return state, err
}

// newerPlan says that a batch was begun under rules that this program does not
// know: its plan would come out wrong.
func newerPlan(s batch.State) error {
	if s.Control.PlanVersion <= recipe.PlanVersion {
		return nil
	}
	return fmt.Errorf("it was begun with a newer bench (rules %d; this one knows rules up to %d): use that one; nothing was changed",
		s.Control.PlanVersion, recipe.PlanVersion)
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

package front

import (
	"fmt"

	"bench/internal/batch"
	"bench/internal/recipe"
	"bench/internal/timer"
)

// Store keeps facts. It is called in commands only, one call at a time.
type Store interface {
	// Batches gives the batches that are not closed.
	Batches() ([]BatchItem, error)
	// Empty says that no batch was ever begun.
	Empty() bool
	// Closed gives a shelf of those that are and have all the words.
	Closed(words string) (Past, error)
	// Start begins a batch, takes hold of it and gives its first entry.
	Start(c recipe.Control, at timer.Moment) (code string, first batch.Entry, err error)
	// Open takes hold of a batch; it fails, in words, when another bench has it.
	Open(code string, at timer.Moment) ([]batch.Entry, error)
	// Follow reads a batch that another bench has, and says who, or "" once nobody has.
	Follow(code string) (entries []batch.Entry, heldBy string, err error)
	// Append keeps a fact; the fact is durable when it returns. A *RefusedError is no
	// failure: nothing was written.
	Append(code string, f batch.Fact, at timer.Moment) (batch.Entry, error)
	// Release lets go of a batch.
	Release(code string) error
	// Remark gives, once, what there is to say beside the facts, or "".
	Remark() string
}

// RefusedError says why a fact cannot be, of which only the store knows: what it points at
// is not there, or another program has the batch. To try it again is of no use.
type RefusedError struct{ Why error }

func (e *RefusedError) Error() string { return e.Why.Error() }

// Unwrap gives why.
func (e *RefusedError) Unwrap() error { return e.Why }

// NotOpened says that nothing was said to a batch, because it could not be taken hold of.
func NotOpened(code string, why error) error {
	return &RefusedError{fmt.Errorf("batch %s was not opened: %w", code, why)}
}

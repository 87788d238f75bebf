package front

import (
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
	// Append keeps a fact; the fact is durable when it returns.
	Append(code string, f batch.Fact, at timer.Moment) (batch.Entry, error)
	// Release lets go of a batch.
	Release(code string) error
	// Remark gives, once, what there is to say beside the facts, or "".
	Remark() string
}

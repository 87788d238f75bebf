package ledger

import (
	"errors"
	"slices"
	"strings"
	"time"

	"bench/internal/front"
	"bench/internal/journal"
)

// Batches gives the batches that are not closed, the newest first. One that
// cannot be read whole is listed as far as it is sound, and named in the error.
func (l *Ledger) Batches() ([]front.BatchItem, error) {
	heads, err := l.store.UnderWay()
	if err != nil {
		return nil, err
	}
	return l.items(heads)
}

// EndedSince gives the batches that ended at that moment or later, the newest first
// and so many at most.
func (l *Ledger) EndedSince(then time.Time, most int) ([]front.BatchItem, error) {
	heads, err := l.store.Ended(most)
	heads = slices.DeleteFunc(heads, func(h journal.Head) bool { return h.Last.Before(then) })
	items, damage := l.items(heads)
	return items, errors.Join(err, damage)
}

// Newest gives the code of the batch that began last, or "".
func (l *Ledger) Newest() (string, error) { return l.store.Newest() }

// Empty says that no batch was ever begun. A store that cannot tell is not taken
// for empty.
func (l *Ledger) Empty() bool {
	newest, err := l.Newest()
	return err == nil && newest == ""
}

// shelf is how many closed batches are given at a time: each is read whole.
const shelf = 20

// Closed gives the batches that are closed and have all those words, the newest
// first, and no more than a shelf has room for; with words, those under way that have
// them are named.
func (l *Ledger) Closed(words string) (past front.Past, err error) {
	var heads []journal.Head
	if strings.TrimSpace(words) == "" {
		heads, err = l.store.Ended(shelf + 1)
	} else {
		heads, past, err = l.looked(words, shelf+1)
	}
	if err != nil {
		return front.Past{}, err
	}
	past.More = len(heads) > shelf
	past.Batches, err = l.items(heads[:min(shelf, len(heads))])
	return past, err
}

func (l *Ledger) items(heads []journal.Head) (items []front.BatchItem, err error) {
	var errs []error
	for _, h := range heads {
		state, err := l.State(h.Batch)
		errs = append(errs, err)
		if state.Begun() && state.Closed() == h.Ended {
			by, left := l.holder(h.Batch)
			items = append(items, front.BatchItem{Code: h.Batch, State: state, HeldBy: by, Left: left})
		}
	}
	return items, errors.Join(errs...)
}

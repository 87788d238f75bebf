package ledger

import (
	"slices"

	"bench/internal/recipe"
	"bench/internal/steps"
)

// SticksUsed gives the sticks of the workshop's lots that batches took, or are still to
// take. Only batches that name such a lot, and those under way, are read; one that cannot
// be read says nothing here, and is told of where batches are listed. It looks at the store
// alone, so that it may run beside the other methods.
func (l *Ledger) SticksUsed(w recipe.Workshop) []recipe.StickUse {
	if len(w.Sticks) == 0 {
		return nil
	}
	var codes, lots []string
	heads, _ := l.store.UnderWay()
	for _, h := range heads {
		codes = append(codes, h.Batch)
	}
	for _, s := range w.Sticks {
		if slices.Contains(lots, s.Lot) {
			continue
		}
		lots = append(lots, s.Lot)
		for _, kind := range []string{stickTerm, lotTerm} { // Batches of before have the lot alone.
			found, _ := l.store.Search(kind + s.Lot)
			codes = append(codes, found...)
		}
	}
	slices.Sort(codes)
	var used []recipe.StickUse
	for _, code := range slices.Compact(codes) {
		s, _ := l.State(code)
		used = append(used, steps.SticksUsed(code, s)...)
	}
	return used
}

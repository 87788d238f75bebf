package steps

import (
	"slices"

	"bench/internal/uses"
	"bench/internal/work"
)

// Occupies lists the vessels and moulds that hold something of this batch by the facts, and
// the sticks that it took, under its code: another batch on the same bench finds them full,
// or gone.
func (p Plan) Occupies(code string) []uses.Occupied {
	if p.planner == nil || p.Closed {
		return nil
	}
	list := p.Uses().Occupied(code, p.planner.wantsDry())
	if n := p.planner.after.Unmoulded(); n < p.Loaves && p.planner.ticked(MouldsID) {
		list = append(list, uses.Occupied{Batch: code, Vessel: p.Mould.Name, Moulds: p.Loaves - n})
	}
	for _, u := range SticksUsed(code, p.State()) {
		if !u.Cut.IsZero() {
			list = append(list, uses.Occupied{Batch: code, Stick: u})
		}
	}
	return list
}

// wantsDry says that dry hydroxide is still to be weighed, or dissolved.
func (p *planner) wantsDry() bool {
	return slices.ContainsFunc(p.pots, func(k pot) bool {
		return slices.ContainsFunc(slices.Concat(k.alkali, k.early), func(t work.Task) bool {
			m, _ := p.c.Material(t.Material)
			return m.Stock == 0 && (!t.Done || !p.emptied[t.ID])
		})
	})
}

// Shared says that the vessel which a task fills, or fills from, holds something of
// another batch, that too few moulds or sticks are free, or, when it is time to put away what
// keeps from harm, that another has lye open; or "".
func (p Plan) Shared(task string, others []uses.Occupied) string {
	t, _, ok := p.Task(task)
	if !ok || t.Done || t.Skipped != "" {
		return ""
	}
	switch t.Do {
	case work.Weigh, work.Portion, work.Gross, work.Tick:
	default:
		return ""
	}
	switch task {
	case hydroxideID, glovesID:
		return uses.LyeOpen(others, task == glovesID)
	case rinsedID, wipedID:
		return p.Uses().LeaveFull(others, task == rinsedID)
	case MouldsID:
		return uses.FewMoulds(p.Mould, p.Loaves, others)
	}
	if SetsOutStick(task) {
		return p.stickGone(task, others)
	}
	if o, ok := uses.Holds(t.Vessel, others); ok {
		return o.String()
	}
	if o, ok := uses.Holds(t.Into, others); ok {
		return o.String()
	}
	return ""
}

// OnlySays says that what is shared is told at a task, and nothing is asked.
func OnlySays(task string) bool { return task == rinsedID || task == wipedID }

// Clashes says, before a batch begins, which of the vessels and moulds that it wants
// hold something of other batches.
func (p Plan) Clashes(others []uses.Occupied) []string {
	words := p.Uses().Clashes(others)
	if few := uses.FewMoulds(p.Mould, p.Loaves, others); few != "" {
		words = append(words, few)
	}
	return words
}

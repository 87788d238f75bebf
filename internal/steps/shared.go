package steps

import (
	"cmp"
	"slices"

	"bench/internal/batch"
	"bench/internal/uses"
	"bench/internal/work"
)

// Occupies lists the vessels and moulds that hold something of this batch by the facts, and
// the sticks that it took, under its code: another batch on the same bench finds them full,
// or gone.
func (p Plan) Occupies(code string) []uses.Occupied {
	if p.planner == nil || p.planner.s.Closed() {
		return nil
	}
	list := p.Uses().Occupied(code, p.WantsDry())
	if n := p.planner.after.Unmoulded(); n < p.Loaves && p.planner.ticked(MouldsID) {
		list = append(list, uses.Occupied{Batch: code, Vessel: p.Mould.Name, Moulds: p.Loaves - n})
	}
	if end, ok := p.planner.s.Stopped(); ok {
		list = p.planner.stillKept(list, end.Left)
	}
	for _, u := range SticksUsed(code, p.State()) {
		if !u.Cut.IsZero() {
			list = append(list, uses.Occupied{Batch: code, Stick: u})
		}
	}
	return list
}

// Standing lists the vessels and moulds of which somebody must say what becomes of what
// is in them before the batch is closed. A mould that is only lined is none.
func (p Plan) Standing() []uses.Occupied {
	if p.planner == nil {
		return nil
	}
	var list []uses.Occupied
	for _, o := range p.planner.filled(p.Occupies("")) {
		if o.Vessel == "" {
			continue // A stick.
		}
		i := slices.IndexFunc(list, func(was uses.Occupied) bool { return was.Vessel == o.Vessel })
		if i < 0 {
			list = append(list, o)
		} else { // Such as two alkalis in one cup.
			list[i].What += " and " + o.What
			list[i].Burns = list[i].Burns || o.Burns
		}
	}
	return list
}

// filled drops moulds into which nothing was poured.
func (p *planner) filled(list []uses.Occupied) []uses.Occupied {
	for _, r := range p.pours {
		if slices.ContainsFunc(r.pourIDs, p.ticked) {
			return list
		}
	}
	return slices.DeleteFunc(list, func(o uses.Occupied) bool { return o.Moulds > 0 })
}

// stillKept gives what of the vessels of an ended batch was not said to be emptied. What
// is kept is said to be lidded and labelled, and so stands open no more.
func (p *planner) stillKept(list []uses.Occupied, left []batch.Left) []uses.Occupied {
	list = slices.DeleteFunc(p.filled(list), func(o uses.Occupied) bool {
		return slices.ContainsFunc(left, func(l batch.Left) bool { return l.Emptied && l.Vessel == o.Vessel })
	})
	for i := range list {
		list[i].Alkali = false
	}
	return list
}

// WantsDry says that dry hydroxide is still to be weighed, or dissolved.
func (p Plan) WantsDry() bool { return p.planner != nil && !p.Closed && p.planner.wantsDry() }

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
	case hydroxideID:
		return cmp.Or(uses.LyeOpen(others, false), uses.HydroxideWanted(others))
	case glovesID:
		return uses.LyeOpen(others, true)
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

package steps

import (
	"slices"

	"bench/internal/batch"
	"bench/internal/recipe"
	"bench/internal/uses"
)

// The policy of this file: a stick on hand is used up when it is set out, since it is cut
// then. Which sticks are left is for the workshop file to say, which may be older than the
// facts; a batch that wants more of them than there should be asks about it, once.

// SticksUsed gives the sticks on hand that a batch took, and those that it is still to
// take.
func SticksUsed(code string, s batch.State) []recipe.StickUse {
	var list []recipe.StickUse
	for _, plan := range s.Control.Sticks {
		for _, strip := range plan.Plan.Sticks {
			done, ticked := s.Done(stickID(plan.Stick, strip.N))
			if strip.Fresh || done.Skipped != "" || !ticked && s.Closed() {
				continue
			}
			u := recipe.StickUse{
				Batch: code, N: strip.N, Stick: plan.Stick, Lot: strip.Lot, Length: strip.Length, Planned: s.Entries[0].At.Wall, Cut: done.At.Wall,
			}
			for _, stock := range plan.Stock {
				switch {
				case !stock.Holds(u.Lot, u.Length):
				case s.Answered(stock.Gone(plan.Stick)): // Somebody looked, and had them.
					u.There = stock.Listed
				default:
					u.There = stock.There
				}
			}
			list = append(list, u)
		}
	}
	return list
}

// stickGone says that a batch is to take more sticks of a kind than other batches have
// left of it by the facts, or "".
func (p Plan) stickGone(task string, others []uses.Occupied) string {
	plan, strip, ok := StickOf(p.State().Control, task)
	if !ok || strip.Fresh {
		return ""
	}
	wanted := 0
	for _, s := range plan.Plan.Sticks {
		if !s.Fresh && s.Lot == strip.Lot && s.Length == strip.Length {
			wanted++
		}
	}
	stock := recipe.StickStock{Lot: strip.Lot, Length: strip.Length, There: wanted} // What a batch of before knows.
	for _, s := range plan.Stock {
		if s.Holds(strip.Lot, strip.Length) {
			stock = s
		}
	}
	stock.Taken = slices.Clone(stock.Taken)
	for _, o := range others {
		u := o.Stick
		began := p.State().Entries[0].At.Wall
		if !stock.Holds(u.Lot, u.Length) || recipe.Fold(u.Stick) != recipe.Fold(plan.Stick) || u.Cut.Before(began) {
			continue // What was cut before is known.
		}
		known := slices.IndexFunc(stock.Taken, func(had recipe.StickUse) bool { return had.Batch == u.Batch && had.N == u.N })
		if known >= 0 {
			stock.Taken[known] = u
			continue
		}
		stock.Taken, stock.There = append(stock.Taken, u), stock.There-1
	}
	if wanted <= stock.There {
		return ""
	}
	return stock.Gone(plan.Stick)
}

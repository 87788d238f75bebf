package cut

import (
	"slices"

	"bench/internal/quantity"
)

// Solve gives the best plan for an order. Where the sticks do not suffice for
// every loaf without a join in sight, the rest is laid as well as can be, and the
// plan says where joins show, or how many loaves cannot be made at all.
func Solve(o Order) (Plan, error) {
	if err := o.check(); err != nil {
		return Plan{}, err
	}
	plan := o.solve()
	if plan.drift() > o.Tolerance { // Only where a row takes four pieces or more of short sticks.
		o.Tolerance = 0
		plan = o.solve()
	}
	return plan, nil
}

func (o Order) solve() Plan {
	s := o.sharing()
	loaves, ok := s.solve()
	hidden := o.Loaves
	for ; !ok && hidden > 0; hidden-- {
		s.loaves = hidden - 1
		loaves, ok = s.solve()
	}
	layout := newLayout(o)
	if ok {
		for i, g := range loaves {
			if g > 0 {
				layout.lay(s.lots[i], s.lots[i].known[g].answer, g)
			}
		}
		_, best, _ := s.best(func(k known) score { return k.bound })
		layout.plan.Bound = Bound{
			Fresh: best.fresh, Used: best.sticks, Joins: best.pieces - s.loaves*o.Rows,
			Offcut: quantity.Length(best.offcut),
		}
	}
	layout.showing(o.Loaves - hidden)
	return layout.finish()
}

// sharing sorts the sticks by lot, in the order in which the lots come.
func (o Order) sharing() *sharing {
	s := &sharing{loaves: o.Loaves, rows: o.Rows, joinsFirst: o.JoinsFirst}
	stations := o.stations()
	for _, first := range o.Sticks {
		same := func(l lot) bool { return l.name == first.Lot && l.fresh == first.Fresh }
		if slices.ContainsFunc(s.lots, same) {
			continue
		}
		var sticks []stock
		for _, st := range o.Sticks {
			if st.Lot != first.Lot || st.Fresh != first.Fresh {
				continue
			}
			count := st.Count
			if st.Fresh {
				count = o.Loaves * o.Rows * len(stations)
			}
			if at := slices.IndexFunc(sticks, func(k stock) bool { return k.length == int64(st.Length) }); at >= 0 {
				sticks[at].count += count
			} else if count > 0 {
				sticks = append(sticks, stock{int64(st.Length), count, int64(st.Length + o.Tolerance/2 + o.Knife)})
			}
		}
		s.lots = append(s.lots, lot{
			name: first.Lot, fresh: first.Fresh, m: newModel(stations, int64(o.Shortest()), int64(o.Knife), sticks),
		})
	}
	return s
}

// stations lists where a piece may begin or end.
func (o Order) stations() []int64 {
	stations := []int64{0}
	for _, l := range o.Loaf.Lines() {
		if l.At < o.Loaf.Length {
			stations = append(stations, int64(l.At))
		}
	}
	return append(stations, int64(o.Loaf.Length))
}

package cut

import (
	"maps"
	"slices"

	"bench/internal/quantity"
)

// rest is what is left of one lot when the hidden rows are laid, stick by stick,
// and how far the one in hand is used.
type rest struct {
	lot    string
	sticks []quantity.Length
}

func (r rest) total() quantity.Length {
	sum := quantity.Length(0)
	for _, l := range r.sticks {
		sum += l
	}
	return sum
}

// showing lays the loaves for which no plan hides every join. As long as the
// sticks allow it a join is still put on a line; where they do not it shows. Lots
// are not mixed here either, and pieces are as long as they can be, which may be less
// than the shortest that was wanted.
func (l *layout) showing(loaves int) {
	l.plan.Whole = len(l.plan.Loaves)
	rests := l.rests()
	for n := range loaves {
		need := quantity.Length(l.o.Rows) * l.o.Loaf.Length
		at := slices.IndexFunc(rests, func(r rest) bool { return r.total() >= need })
		if at < 0 {
			l.plan.Unmade++
			continue
		}
		later := min(rests[at].total()/need, quantity.Length(loaves-n)) - 1 // Loaves that this lot is still to serve.
		if sticks := len(l.plan.Sticks); !l.wrap(&rests[at], need, later*need) {
			l.plan.Sticks = l.plan.Sticks[:sticks]
			l.plan.Unmade++
		}
	}
}

// rests lists the sticks that are not in the plan yet, oldest lot first.
func (l *layout) rests() []rest {
	var rests []rest
	spent := maps.Clone(l.spent)
	for _, s := range l.o.Sticks {
		if s.Fresh {
			continue // As many as it takes did not help.
		}
		at := slices.IndexFunc(rests, func(r rest) bool { return r.lot == s.Lot })
		if at < 0 {
			at = len(rests)
			rests = append(rests, rest{lot: s.Lot})
		}
		key := Stick{Lot: s.Lot, Length: s.Length}
		used := min(spent[key], s.Count)
		spent[key] -= used
		for range s.Count - used {
			rests[at].sticks = append(rests[at].sticks, s.Length)
		}
	}
	return rests
}

// wrap lays one loaf out of a lot's rest, one stick after the other, and leaves
// what later loaves need. It fails where the knife takes what was needed.
func (l *layout) wrap(r *rest, need, later quantity.Length) bool {
	loaf := PlacedLoaf{N: len(l.plan.Loaves) + 1, Lot: r.lot}
	var shows []Show
	stick, part := 0, 0
	for n := range l.o.Rows {
		row := PlacedRow{N: n + 1}
		for at := quantity.Length(0); at < l.o.Loaf.Length; {
			if len(r.sticks) == 0 {
				return false
			}
			if stick == 0 {
				l.plan.Sticks = append(l.plan.Sticks, Strip{N: len(l.plan.Sticks) + 1, Lot: r.lot, Length: r.sticks[0], Offcut: r.sticks[0]})
				stick, part = len(l.plan.Sticks), 0
			}
			in := &l.plan.Sticks[stick-1]
			to := l.reach(at, in.Offcut, r.total()-need-later)
			if to == at { // Nothing of use is left of it.
				if part == 0 {
					l.plan.Sticks = l.plan.Sticks[:stick-1]
				}
				r.sticks, stick = r.sticks[1:], 0
				continue
			}
			part++
			length := to - at
			row.Pieces = append(row.Pieces, Piece{Stick: stick, Part: part, Loaf: loaf.N, Row: row.N, From: at, To: to, Length: length, Line: NoLine})
			if l.o.lineAt(to) == NoLine && to < l.o.Loaf.Length {
				shows = append(shows, Show{Loaf: loaf.N, Row: row.N, Bar: l.o.barAt(to), At: to})
			}
			lost := min(in.Offcut-length, l.o.Knife)
			in.Offcut -= length + lost
			need -= length
			r.sticks[0] = in.Offcut
			if at = to; in.Offcut == 0 {
				r.sticks, stick = r.sticks[1:], 0
			}
		}
		loaf.Rows = append(loaf.Rows, row)
	}
	if stick > 0 {
		r.sticks = r.sticks[1:] // What is left of it is an offcut.
	}
	l.plan.Loaves = append(l.plan.Loaves, loaf)
	l.plan.Shows = append(l.plan.Shows, shows...)
	return true
}

// reach gives how far a stick goes from a place: to the end of the row, to a cut
// line if what is lost by that can be spared, or as far as it goes.
func (l *layout) reach(at, stick, spare quantity.Length) quantity.Length {
	end := min(at+stick, l.o.Loaf.Length)
	if end == l.o.Loaf.Length {
		return end
	}
	line := at
	for _, c := range l.o.Loaf.Lines() {
		if c.At > at && c.At <= end {
			line = c.At
		}
	}
	switch {
	case end-line > spare:
		return end
	case line-at >= l.o.Shortest():
		return line
	case stick <= spare:
		return at
	}
	return end
}

// barAt gives the bar in which a place lies; a place in an end trim counts as
// the bar beside it, because the join is seen on its face.
func (o Order) barAt(at quantity.Length) int {
	for k := 1; k <= o.Loaf.Bars(); k++ {
		if _, end := o.Loaf.Span(k); at <= end {
			return k
		}
	}
	return o.Loaf.Bars()
}

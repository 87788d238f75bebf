package cut

import (
	"cmp"
	"slices"

	"bench/internal/quantity"
)

// layout turns answers into the two lists.
type layout struct {
	o     Order
	plan  Plan
	spent map[Stick]int // spent is how many sticks of each kind are in the plan; Count is left at zero in the key.
}

func newLayout(o Order) *layout { return &layout{o: o, spent: map[Stick]int{}} }

// cutting is a stick that is being cut by a pattern, before it has a number.
type cutting struct {
	use
	stick  Stick
	taken  int // taken is how many of its pieces have their place.
	number int
}

// slot is a piece that waits for its place in a row.
type slot struct {
	of   *cutting
	span span
}

// lay puts one lot's answer into loaves. Rows are taken out of the flow one by
// one, from the stop; a stick gets its number when its first piece is needed.
func (l *layout) lay(of lot, a answer, loaves int) {
	waiting := map[int][]slot{} // waiting is by the station where the piece begins.
	for _, u := range a.uses {
		for range u.count {
			c := &cutting{use: u, stick: Stick{Lot: of.name, Length: quantity.Length(of.m.sticks[u.stock].length), Fresh: of.fresh}}
			l.spent[c.stick]++
			for _, s := range u.spans {
				waiting[s.from] = append(waiting[s.from], slot{c, s})
			}
		}
	}
	for _, slots := range waiting {
		slices.SortStableFunc(slots, func(a, b slot) int {
			return cmp.Or(cmp.Compare(b.span.to, a.span.to), cmp.Compare(len(a.of.spans), len(b.of.spans)))
		})
	}
	for range loaves {
		loaf := PlacedLoaf{N: len(l.plan.Loaves) + 1, Lot: of.name}
		for r := range l.o.Rows {
			row := PlacedRow{N: r + 1}
			for at := 0; at < of.m.last(); {
				next := waiting[at][0]
				waiting[at] = waiting[at][1:]
				row.Pieces = append(row.Pieces, l.cut(next, of.m, loaf.N, row.N))
				at = next.span.to
			}
			loaf.Rows = append(loaf.Rows, row)
		}
		l.plan.Loaves = append(l.plan.Loaves, loaf)
	}
}

// cut takes a piece from its stick.
func (l *layout) cut(s slot, m *model, loaf, row int) Piece {
	if s.of.number == 0 {
		l.plan.Sticks = append(l.plan.Sticks, Strip{
			N: len(l.plan.Sticks) + 1, Lot: s.of.stick.Lot, Length: s.of.stick.Length, Fresh: s.of.stick.Fresh,
			Offcut: quantity.Length(m.offcut(s.of.pattern)),
		})
		s.of.number = len(l.plan.Sticks)
	}
	s.of.taken++
	p := Piece{
		Stick: s.of.number, Part: s.of.taken, Loaf: loaf, Row: row, Line: NoLine,
		From: quantity.Length(m.stations[s.span.from]), To: quantity.Length(m.stations[s.span.to]),
	}
	p.Length = p.To - p.From
	return p
}

// finish settles the lengths, names the lines, and counts.
func (l *layout) finish() Plan {
	p := &l.plan
	p.settle(l.o.Knife)
	p.Used = len(p.Sticks)
	for _, loaf := range p.Loaves {
		for _, row := range loaf.Rows {
			p.Joins += len(row.Pieces) - 1
			for k := range row.Pieces {
				piece := &row.Pieces[k]
				if k < len(row.Pieces)-1 {
					piece.Line = l.o.lineAt(piece.To + piece.Drift)
				}
				s := &p.Sticks[piece.Stick-1]
				s.Pieces = append(s.Pieces, *piece)
			}
		}
	}
	for _, s := range p.Sticks {
		p.Offcut = max(p.Offcut, s.Offcut)
		if s.Fresh {
			p.Fresh++
		}
	}
	return *p
}

// lineAt gives the cut line that a place is, or NoLine.
func (o Order) lineAt(at quantity.Length) int {
	for _, l := range o.Loaf.Lines() {
		if l.At == at {
			return l.N
		}
	}
	return NoLine
}

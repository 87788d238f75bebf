package cut

import "bench/internal/quantity"

// Loaf is how a loaf will be cut, seen along its length from the end that goes
// to the cutter's stop.
type Loaf struct {
	Length quantity.Length // Length of the row, which is the inside of the mould.
	Bar    quantity.Length // Bar is how thick a bar is cut.
	Near   quantity.Length // Near is the end trim at the stop; zero is none.
	Far    quantity.Length // Far is the least end trim at the other end.
	Wire   quantity.Length // Wire is the width that the cutter takes with each cut.
}

// Bars gives how many bars the loaf yields: without a wire that is
// floor((length - trims) / bar).
func (l Loaf) Bars() int {
	room := l.Length - l.first() - l.Far + l.Wire
	if l.Far > 0 {
		room -= l.Wire
	}
	if l.Bar <= 0 || room < l.Bar+l.Wire {
		return 0
	}
	return int(room / (l.Bar + l.Wire))
}

// first is where the first bar begins.
func (l Loaf) first() quantity.Length {
	if l.Near > 0 {
		return l.Near + l.Wire
	}
	return 0
}

// Span gives where the k-th bar, counted from 1 at the stop, begins and ends.
func (l Loaf) Span(k int) (from, to quantity.Length) {
	from = l.first() + quantity.Length(k-1)*(l.Bar+l.Wire)
	return from, from + l.Bar
}

// Rest gives what is left beyond the last bar and its cut: the far end cut.
func (l Loaf) Rest() quantity.Length {
	_, end := l.Span(l.Bars())
	return max(0, l.Length-end-l.Wire)
}

// Lines gives the cut lines: where the middle of the wire will pass. Line k is
// the one after bar k; line 0 parts off the trim at the stop.
func (l Loaf) Lines() []Line {
	var lines []Line
	if l.Near > 0 {
		lines = append(lines, Line{0, l.Near + l.Wire/2})
	}
	for k := 1; k <= l.Bars(); k++ {
		if _, end := l.Span(k); end < l.Length {
			lines = append(lines, Line{k, min(end+l.Wire/2, l.Length)})
		}
	}
	return lines
}

// Line is a cut line and how far it lies from the end at the stop.
type Line struct {
	N  int
	At quantity.Length
}

package cut

import "slices"

// span is a piece by the places along the row, counted from 0 at the stop,
// where it begins and ends.
type span struct{ from, to int }

// stock is the sticks of one lot and one length.
type stock struct {
	length int64
	count  int
	room   int64 // room is what pieces with a knife's width each may take.
}

// model is what one lot's sticks can do for rows that are all alike. Lengths are
// in micrometres.
//
// A row is a path over its stations: the two ends of the mould and the cut
// lines between. A stick is a path over the sums of pieces that fit into it. The
// two meet in the spans, so a plan is a flow through both.
type model struct {
	stations []int64
	lengths  []int64  // lengths are the different ones that a piece can have, shortest first.
	spans    [][]span // spans are those of each length.
	knife    int64
	sticks   []stock
	sums     []int64   // sums of pieces and knife that can be cut from a stick, least first.
	next     [][]int32 // next leads from a sum, by a length, to the next sum; below zero does not fit.
	known    []pattern // known are patterns that were of use before.
}

// last is the station at the far end.
func (m *model) last() int { return len(m.stations) - 1 }

func (m *model) length(s span) int64 { return m.stations[s.to] - m.stations[s.from] }

func newModel(stations []int64, least, knife int64, sticks []stock) *model {
	m := &model{stations: stations, knife: knife, sticks: sticks}
	byLength := map[int64][]span{}
	for i := range stations {
		for j := i + 1; j < len(stations); j++ {
			if s := (span{i, j}); m.length(s) >= least {
				byLength[m.length(s)] = append(byLength[m.length(s)], s)
			}
		}
	}
	for l := range byLength {
		m.lengths = append(m.lengths, l)
	}
	slices.Sort(m.lengths)
	for _, l := range m.lengths {
		m.spans = append(m.spans, byLength[l])
	}
	m.reach()
	return m
}

// reach finds every sum that pieces can make within the longest stick.
func (m *model) reach() {
	room := int64(0)
	for _, s := range m.sticks {
		room = max(room, s.room)
	}
	seen := map[int64]bool{0: true}
	m.sums = []int64{0}
	for i := 0; i < len(m.sums); i++ {
		for _, l := range m.lengths {
			if to := m.sums[i] + l + m.knife; to <= room && !seen[to] {
				seen[to] = true
				m.sums = append(m.sums, to)
			}
		}
	}
	slices.Sort(m.sums)
	at := make(map[int64]int32, len(m.sums))
	for i, s := range m.sums {
		at[s] = int32(i)
	}
	m.next = make([][]int32, len(m.sums))
	for i, s := range m.sums {
		for _, l := range m.lengths {
			to, ok := at[s+l+m.knife]
			if !ok {
				break // Longer ones do not fit either.
			}
			m.next[i] = append(m.next[i], to)
		}
	}
}

// pattern is how one stick is cut, with the place in a row that each piece is
// for.
type pattern struct {
	stock  int
	spans  []span
	sum    int64 // sum is that of its pieces, with a knife's width each.
	chosen bool  // chosen says that it is the stick whose offcut is wanted.
}

// offcut gives what is left of the stick.
func (m *model) offcut(p pattern) int64 { return max(0, m.sticks[p.stock].length-p.sum) }

// use is how many sticks are cut by a pattern.
type use struct {
	pattern
	count int
}

// question asks whether so many rows can be made within limits.
type question struct {
	rows    int // rows are still to be begun.
	sticks  int // sticks is the most that may be used.
	pieces  int // pieces is the most that there may be.
	offcut  int64
	chosen  bool  // chosen asks for one stick that leaves the offcut.
	balance []int // balance is how many more pieces must end than begin at each station.
	left    []int // left is how many sticks of each length there still are.
	bounds  []bound
}

// bound is a limit on how many pieces lie on one span.
type bound struct {
	span
	atLeast bool
	n       int
}

// unlimited stands for no limit on sticks or pieces.
const unlimited = 1 << 30

func (m *model) ask(rows int) question {
	q := question{rows: rows, sticks: unlimited, pieces: unlimited, balance: make([]int, len(m.stations))}
	for _, s := range m.sticks {
		q.left = append(q.left, s.count)
	}
	return q
}

// after gives the question that remains when sticks are cut by a pattern.
func (q question) after(u use) question {
	q.balance, q.left, q.bounds = slices.Clone(q.balance), slices.Clone(q.left), slices.Clone(q.bounds)
	q.left[u.stock] -= u.count
	if q.sticks < unlimited {
		q.sticks -= u.count
	}
	if q.pieces < unlimited {
		q.pieces -= u.count * len(u.spans)
	}
	if u.chosen {
		q.chosen = false
	}
	for _, s := range u.spans {
		if s.from == 0 {
			q.rows -= u.count
		} else {
			q.balance[s.from] += u.count
		}
		q.balance[s.to] -= u.count
		for i := range q.bounds {
			if q.bounds[i].span == s {
				q.bounds[i].n -= u.count
			}
		}
	}
	return q
}

// possible says that nothing was overdrawn.
func (q question) possible() bool {
	return q.rows >= 0 && q.sticks >= 0 && q.pieces >= 0 && !slices.ContainsFunc(q.left, func(n int) bool { return n < 0 })
}

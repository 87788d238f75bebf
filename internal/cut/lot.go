package cut

import (
	"cmp"
	"math"
	"slices"
)

// score is how good a plan is; less is better, but for the offcut.
type score struct {
	fresh  int // fresh sticks are still to be made.
	sticks int
	pieces int
	offcut int64
}

// compare orders scores by the maker's choice of what comes first.
func (s score) compare(o score, joinsFirst bool) int {
	two := []int{cmp.Compare(s.sticks, o.sticks), cmp.Compare(s.pieces, o.pieces)}
	if joinsFirst {
		slices.Reverse(two)
	}
	return cmp.Or(cmp.Compare(s.fresh, o.fresh), two[0], two[1], cmp.Compare(o.offcut, s.offcut))
}

// answer is the best plan for some rows from one lot.
type answer struct {
	uses   []use
	score  score
	bound  score // bound is what no plan can beat.
	proven bool
}

// bySticks and byPieces are what a question may ask to be least.
var (
	bySticks = weight{stick: 1}              //nolint:gochecknoglobals // A constant that Go cannot spell as such.
	byPieces = weight{piece: 1}              //nolint:gochecknoglobals // The same.
	byBoth   = weight{stick: 0.5, piece: .5} //nolint:gochecknoglobals // The same.
)

// least gives a number of which no plan has fewer; it is not ok if there is no
// plan at all.
func (m *model) least(q question, w weight) (n int, ok bool) {
	r := m.relax(q, w)
	if !r.sound {
		return 0, true
	}
	return int(math.Ceil(r.cost - 10*nearly)), r.feasible
}

// solve gives the best plan for so many rows, fewest sticks first or fewest
// pieces first; it is not ok if the sticks do not suffice.
func (m *model) solve(rows int, joinsFirst bool) (a answer, ok bool) {
	first, second := bySticks, byPieces
	if joinsFirst {
		first, second = byPieces, bySticks
	}
	q := m.ask(rows)
	low, ok := m.least(q, first)
	if !ok {
		return answer{}, false
	}
	most := m.most(rows, joinsFirst)
	a.proven = true
	for n := low; n <= most; n++ {
		q := q.limit(n, joinsFirst)
		under, ok := m.least(q, second)
		if !ok {
			continue
		}
		if n == low {
			a.bound = under2(n, under, joinsFirst)
		}
		uses, limited, ok := m.within(q, under, !joinsFirst, &a.proven)
		if !ok {
			continue
		}
		a.uses = uses
		a.stretch(m, limited)
		return a, true
	}
	return answer{}, false
}

func under2(first, second int, joinsFirst bool) score {
	if joinsFirst {
		return score{sticks: second, pieces: first}
	}
	return score{sticks: first, pieces: second}
}

// limit sets the first or the second of the two limits.
func (q question) limit(n int, pieces bool) question {
	if pieces {
		q.pieces = n
	} else {
		q.sticks = n
	}
	return q
}

// most is more sticks or pieces than any plan needs.
func (m *model) most(rows int, pieces bool) int {
	if pieces {
		return rows * m.last()
	}
	total := 0
	for _, s := range m.sticks {
		total += s.count
	}
	return min(total, rows*m.last())
}

// within finds the least of the second aim from under on. When a few steps up do
// not find any, it asks whether there is a plan at all.
func (m *model) within(q question, under int, pieces bool, proven *bool) ([]use, question, bool) {
	const steps = 3
	most := m.most(q.rows, pieces)
	for n := under; n <= most; n++ {
		if n == under+steps {
			uses, found, certain := m.search(q, byBoth)
			if !found {
				*proven = *proven && certain
				return nil, q, false
			}
			most = min(most, m.scoreOf(uses).of(pieces))
		}
		limited := q.limit(n, pieces)
		uses, found, certain := m.search(limited, byBoth)
		if found {
			return uses, limited, true
		}
		*proven = *proven && certain
	}
	return nil, q, false
}

func (s score) of(pieces bool) int {
	if pieces {
		return s.pieces
	}
	return s.sticks
}

func (m *model) scoreOf(uses []use) score {
	var s score
	for _, u := range uses {
		s.sticks += u.count
		s.pieces += u.count * len(u.spans)
		s.offcut = max(s.offcut, m.offcut(u.pattern))
	}
	return s
}

// stretch makes the longest single offcut as long as the limits allow.
func (a *answer) stretch(m *model, q question) {
	a.score = m.scoreOf(a.uses)
	lengths := m.offcuts()
	floor, _ := slices.BinarySearch(lengths, a.score.offcut+1)
	high := len(lengths) // Offcuts from high on are known to be too long.
	for low := floor; low < high; {
		mid := (low + high) / 2
		if r := m.relax(q.wanting(lengths[mid]), weight{}); !r.sound || r.feasible {
			low = mid + 1
		} else {
			high = mid
		}
	}
	a.bound.offcut = a.score.offcut
	if high > floor {
		a.bound.offcut = lengths[high-1]
	}
	for n := high - 1; n >= floor; n-- {
		uses, found, certain := m.search(q.wanting(lengths[n]), weight{})
		if found {
			a.uses, a.score = uses, m.scoreOf(uses)
			return
		}
		a.proven = a.proven && certain
	}
}

func (q question) wanting(offcut int64) question {
	q.offcut, q.chosen = offcut, true
	return q
}

// offcuts lists every length that may be left of a stick, shortest first.
func (m *model) offcuts() []int64 {
	var all []int64
	for _, s := range m.sticks {
		if s.count == 0 {
			continue
		}
		for _, sum := range m.sums[1:] {
			if sum <= s.length {
				all = append(all, s.length-sum)
			}
		}
	}
	slices.Sort(all)
	return slices.Compact(all)
}

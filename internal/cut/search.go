package cut

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// maxNodes bounds a search; what it leaves open is said to be not proven.
const maxNodes = 200

// maxSalts is how many other corners of the relaxed plans are tried then.
const maxSalts = 40

// search looks for a plan that answers the question. It tells whether there is
// one, or is none for certain.
func (m *model) search(q question, w weight) (uses []use, found, certain bool) {
	nodes := maxNodes
	uses, found, certain = m.branch(q, w, &nodes)
	for salt := uint32(1); !found && !certain && salt <= maxSalts; salt++ {
		salted := weight{stick: w.stick, piece: w.piece, salt: salt}
		if r := m.relax(q, salted); r.feasible && r.sound {
			if uses, found = m.dive(q, salted, r); found {
				return uses, true, true
			}
		}
	}
	return uses, found, certain
}

// branch solves the relaxed question, tries to round it, and otherwise settles
// one span at a time: at least so many pieces on it, or fewer.
func (m *model) branch(q question, w weight, nodes *int) (uses []use, found, certain bool) {
	if *nodes--; *nodes < 0 {
		return nil, false, false
	}
	r := m.relax(q, w)
	if !r.sound {
		return nil, false, false
	}
	if !r.feasible {
		return nil, false, true
	}
	if uses, ok := m.dive(q, w, r); ok {
		return uses, true, true
	}
	s, n, ok := fractional(r.shares)
	if !ok {
		uses, found := m.commit(q, w, r, nodes)
		return uses, found, found
	}
	certain = true
	for _, b := range []bound{{s, true, n + 1}, {s, false, n}} {
		child := q
		child.bounds = append(append([]bound(nil), q.bounds...), b)
		uses, found, sure := m.branch(child, w, nodes)
		if found {
			return uses, true, true
		}
		certain = certain && sure
	}
	return nil, false, certain
}

// commit cuts a stick by a pattern that is used in part, and searches on. It is
// for when every piece has its place and only the sticks are still fractions.
// It may miss a plan.
func (m *model) commit(q question, w weight, r relaxed, nodes *int) ([]use, bool) {
	shares, _ := m.group(r.shares)
	slices.SortStableFunc(shares, func(a, b share) int {
		return cmp.Compare(b.of-math.Floor(b.of), a.of-math.Floor(a.of))
	})
	for _, s := range shares[:min(len(shares), 4)] {
		_, wanted := m.group(r.shares)
		u := use{m.draw(s.pattern, wanted), 1}
		child := q.after(u)
		if !child.possible() || len(u.spans) == 0 {
			continue
		}
		if uses, found, _ := m.branch(child, w, nodes); found {
			return append(uses, u), true
		}
	}
	return nil, false
}

// fractional gives the span whose number of pieces is furthest from whole, and
// that number rounded down.
func fractional(shares []share) (s span, n int, ok bool) {
	sums := map[span]float64{}
	var order []span
	for _, sh := range shares {
		for _, at := range sh.spans {
			if _, seen := sums[at]; !seen {
				order = append(order, at)
			}
			sums[at] += sh.of
		}
	}
	worst := nearly * 10
	for _, at := range order {
		v := sums[at]
		if off := math.Abs(v - math.Round(v)); off > worst {
			worst, s, n, ok = off, at, int(math.Floor(v)), true
		}
	}
	return s, n, ok
}

// dive rounds a relaxed plan: what is whole is kept, or else the largest
// fraction is rounded up, and the rest is relaxed again.
func (m *model) dive(q question, w weight, r relaxed) (uses []use, ok bool) {
	for q.possible() {
		groups, wanted := m.group(r.shares)
		rest, whole, largest := q, true, -1
		for i, g := range groups {
			for range int(math.Floor(g.of + 10*nearly)) {
				u := use{m.draw(g.pattern, wanted), 1}
				uses, rest = append(uses, u), rest.after(u)
			}
			off := g.of - math.Floor(g.of+10*nearly)
			if whole = whole && off < 10*nearly; off > 10*nearly && (largest < 0 || off > groups[largest].fraction()) {
				largest = i
			}
		}
		if whole {
			return uses, rest.done()
		}
		if rest.sameAs(q) {
			u := use{m.draw(groups[largest].pattern, wanted), 1}
			uses, rest = append(uses, u), rest.after(u)
		}
		if q = rest; !q.possible() {
			return nil, false
		}
		if r = m.relax(q, w); !r.feasible || !r.sound {
			return nil, false
		}
	}
	return nil, false
}

func (s share) fraction() float64 { return s.of - math.Floor(s.of+10*nearly) }

// group adds up the shares that cut sticks alike, whatever places in the rows
// the pieces are for, and how many pieces are wanted at each place.
func (m *model) group(shares []share) (groups []share, wanted map[span]float64) {
	wanted = map[span]float64{}
	at := map[string]int{}
	for _, s := range shares {
		for _, place := range s.spans {
			wanted[place] += s.of
		}
		key := m.key(s.pattern)
		if i, ok := at[key]; ok {
			groups[i].of += s.of
			continue
		}
		at[key] = len(groups)
		groups = append(groups, s)
	}
	return groups, wanted
}

// key names how a pattern cuts its stick.
func (m *model) key(p pattern) string {
	var lengths []int64
	for _, s := range p.spans {
		lengths = append(lengths, m.length(s))
	}
	slices.Sort(lengths)
	return fmt.Sprint(p.stock, p.chosen, lengths)
}

// draw gives the pattern the places that are wanted most, and leaves out pieces
// that nobody wants.
func (m *model) draw(p pattern, wanted map[span]float64) pattern {
	out := p
	out.spans = nil
	for _, s := range p.spans {
		n, _ := slices.BinarySearch(m.lengths, m.length(s))
		best, most := s, 10*nearly
		for _, place := range m.spans[n] {
			if wanted[place] > most {
				best, most = place, wanted[place]
			}
		}
		if most > 10*nearly {
			out.spans = append(out.spans, best)
			wanted[best]--
		} else {
			out.sum -= m.length(s) + m.knife
		}
	}
	return out
}

// done says that nothing is left to be made.
func (q question) done() bool {
	if !q.possible() || q.rows != 0 || q.chosen {
		return false
	}
	for _, b := range q.balance[:len(q.balance)-1] {
		if b != 0 {
			return false
		}
	}
	return true
}

func (q question) sameAs(other question) bool {
	for i, n := range q.left {
		if n != other.left[i] {
			return false
		}
	}
	return true
}

package cut

import "slices"

// lot is what the sticks of one dough lot can do for some loaves. Loaves do not
// mix lots, so lots meet only in how many loaves each serves.
type lot struct {
	name  string
	fresh bool // fresh lots are still to be made.
	m     *model
	known []known // known is by the number of loaves.
}

// known is what is known of one lot serving so many loaves: first a cheap bound,
// then that of the relaxed plan, in the end the answer.
type known struct {
	stage      int
	score      score
	bound      score
	answer     answer
	impossible bool
}

// The stages of knowing.
const (
	guessed = iota
	bounded
	settled
)

// sharing shares loaves out over lots.
type sharing struct {
	lots       []lot // lots are from the oldest.
	loaves     int
	rows       int // rows are those of one loaf.
	joinsFirst bool
}

// solve gives the loaves of each lot. It works out exactly only what the best
// sharing so far rests on: as long as that rests on bounds, one of them is
// replaced by something surer, and the best sharing is looked for again. When
// the best one rests on answers alone, no other can beat it.
func (s *sharing) solve() (loaves []int, ok bool) {
	for i := range s.lots {
		for g := len(s.lots[i].known); g <= s.loaves; g++ {
			s.lots[i].known = append(s.lots[i].known, s.guess(&s.lots[i], g))
		}
	}
	for {
		loaves, _, ok := s.best(func(k known) score { return k.score })
		if !ok {
			return nil, false
		}
		at := -1
		for i, g := range loaves {
			if k := s.lots[i].known[g]; k.stage < settled && (at < 0 || k.stage < s.lots[at].known[loaves[at]].stage) {
				at = i
			}
		}
		if at < 0 {
			return loaves, true
		}
		s.learn(&s.lots[at], loaves[at])
	}
}

// best finds the sharing of least score, and among equals the one in which the
// older lots serve more.
func (s *sharing) best(of func(known) score) (loaves []int, total score, ok bool) {
	type cell struct {
		score score
		take  int
		ok    bool
	}
	table := make([][]cell, len(s.lots)+1)
	table[len(s.lots)] = make([]cell, s.loaves+1)
	table[len(s.lots)][0].ok = true
	for l := len(s.lots) - 1; l >= 0; l-- {
		table[l] = make([]cell, s.loaves+1)
		for n := range s.loaves + 1 {
			for take := n; take >= 0; take-- {
				k, rest := s.lots[l].known[take], table[l+1][n-take]
				if k.impossible || !rest.ok {
					continue
				}
				sum := of(k).plus(rest.score)
				if c := &table[l][n]; !c.ok || sum.compare(c.score, s.joinsFirst) < 0 {
					*c = cell{sum, take, true}
				}
			}
		}
	}
	if !table[0][s.loaves].ok {
		return nil, score{}, false
	}
	n := s.loaves
	for l := range s.lots {
		loaves = append(loaves, table[l][n].take)
		n -= table[l][n].take
	}
	return loaves, table[0][s.loaves].score, true
}

func (s score) plus(o score) score {
	return score{s.fresh + o.fresh, s.sticks + o.sticks, s.pieces + o.pieces, max(s.offcut, o.offcut)}
}

// guess bounds by length alone.
func (s *sharing) guess(l *lot, loaves int) known {
	if loaves == 0 {
		return known{stage: settled}
	}
	rows := loaves * s.rows
	need := int64(rows) * l.m.stations[l.m.last()]
	sticks, have, longest := 0, int64(0), int64(0)
	for _, st := range slices.Backward(slices.SortedFunc(slices.Values(l.m.sticks), func(a, b stock) int { return int(a.room - b.room) })) {
		longest = max(longest, st.room-l.m.knife)
		for range st.count {
			if have >= need {
				break
			}
			have += st.room - l.m.knife
			sticks++
		}
	}
	if have < need || len(l.m.lengths) == 0 {
		return known{impossible: true}
	}
	each := max(1, (l.m.stations[l.m.last()]+longest-1)/longest)
	k := known{score: score{sticks: sticks, pieces: rows * int(each), offcut: longest - l.m.lengths[0]}}
	if !s.joinsFirst {
		k.score.offcut = max(0, min(k.score.offcut, have-need))
	}
	if l.fresh {
		k.score.fresh = sticks
	}
	k.bound = k.score
	return k
}

// learn replaces what is known by something surer.
func (s *sharing) learn(l *lot, loaves int) {
	k := &l.known[loaves]
	rows := loaves * s.rows
	if k.stage == guessed {
		k.stage = bounded
		first, second := bySticks, byPieces
		if s.joinsFirst {
			first, second = second, first
		}
		q := l.m.ask(rows)
		n, ok := l.m.least(q, first)
		if !ok {
			k.impossible = true
			return
		}
		under, ok := l.m.least(q.limit(n, s.joinsFirst), second)
		if !ok { // A stick more is needed; how it goes on will be seen.
			n, under = n+1, 0
		}
		b := under2(n, under, s.joinsFirst)
		k.score.sticks, k.score.pieces = max(b.sticks, k.score.sticks), max(b.pieces, k.score.pieces)
		if l.fresh {
			k.score.fresh = k.score.sticks
		}
		k.bound = k.score
		return
	}
	k.stage = settled
	a, ok := l.m.solve(rows, s.joinsFirst)
	if !ok {
		k.impossible = true
		return
	}
	if l.fresh {
		a.score.fresh, a.bound.fresh = a.score.sticks, a.bound.sticks
	}
	k.answer, k.score, k.bound = a, a.score, a.bound
	if a.proven {
		k.bound = a.score
	}
}

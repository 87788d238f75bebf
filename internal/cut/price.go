package cut

import "math"

// price gives, for each length of stick, the pattern that saves most, if any
// saves: a knapsack over the sums, where each length of piece is worth what its
// best span is.
func (r *relaxation) price(dual []float64) []column {
	m := r.m
	lengthSpan := r.worths(dual)
	r.pack(lengthSpan)
	var columns []column
	try := func(stock int, room int64, chosen bool, gain float64) {
		at, best := int32(0), math.Inf(-1)
		for i, sum := range m.sums {
			if sum > room {
				break
			}
			if i > 0 && r.best[i].value > best {
				at, best = int32(i), r.best[i].value
			}
		}
		if at == 0 || best+gain <= nearly {
			return
		}
		k := pattern{stock: stock, sum: m.sums[at], chosen: chosen}
		for ; at > 0; at = r.best[at].from {
			k.spans = append(k.spans, lengthSpan[r.best[at].by].span)
		}
		columns = append(columns, r.column(k))
		r.patterns = append(r.patterns, k)
	}
	for n, s := range m.sticks {
		gain := dual[m.last()+n] - r.w.stick
		if r.stickRow >= 0 {
			gain += dual[r.stickRow]
		}
		if r.q.left[n] > 0 {
			try(n, s.room, false, gain)
			if r.q.chosen {
				try(n, min(s.room, s.length-r.q.offcut), true, gain+dual[r.chosen])
			}
		}
	}
	return columns
}

// spanWorth is the span on which a piece of some length is worth most.
type spanWorth struct {
	span
	value float64
}

func (r *relaxation) worths(dual []float64) []spanWorth {
	m, out := r.m, make([]spanWorth, len(r.m.lengths))
	each := 0.0
	if r.pieceRow >= 0 {
		each += dual[r.pieceRow]
	}
	for n, spans := range m.spans {
		out[n].value = math.Inf(-1)
		for _, s := range spans {
			v := each - r.w.of(s)
			if s.from == 0 {
				v += dual[0]
			} else {
				v -= dual[s.from]
			}
			if s.to < m.last() {
				v += dual[s.to]
			}
			for i, b := range r.q.bounds {
				if b.span == s {
					v += dual[r.boundRow+i]
				}
			}
			if v > out[n].value {
				out[n] = spanWorth{s, v}
			}
		}
	}
	return out
}

// pack finds the best worth of every sum.
func (r *relaxation) pack(lengths []spanWorth) {
	for i := range r.best {
		r.best[i] = worth{value: math.Inf(-1), from: -1}
	}
	r.best[0].value = 0
	for i, next := range r.m.next {
		have := r.best[i].value
		if math.IsInf(have, -1) {
			continue
		}
		for n, to := range next {
			if v := have + lengths[n].value; v > r.best[to].value {
				r.best[to] = worth{v, int32(i), int32(n)}
			}
		}
	}
}

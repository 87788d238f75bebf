package cut

// weight is what a stick and a piece cost. With a salt, places in the row cost
// more or less by chance, so that another of many equal plans comes out.
type weight struct {
	stick, piece float64
	salt         uint32
}

// of gives what a piece on a span costs.
func (w weight) of(s span) float64 {
	if w.salt == 0 {
		return w.piece
	}
	h := w.salt*2654435761 ^ uint32(s.from)*40503 ^ uint32(s.to)*2246822519
	h ^= h >> 15
	h *= 2246822519
	h ^= h >> 13
	return w.piece + float64(h%1024)/1024
}

// share is how much of a pattern a relaxed plan uses; it may be a fraction.
type share struct {
	pattern
	of float64
}

// relaxed is the best plan if sticks could be cut in fractions. No real plan
// costs less: this is the bound.
type relaxed struct {
	cost     float64
	shares   []share
	feasible bool
	sound    bool
}

// relaxation holds a question as a linear program. Its rows are the stations
// but the last (as many pieces begin as end; at 0, as many begin as there are
// rows), the sticks of each length, and the limits.
type relaxation struct {
	m        *model
	q        question
	w        weight
	p        program
	patterns []pattern // patterns belong to the program's columns from first on.
	first    int
	stickRow int // stickRow, pieceRow and chosenRow are below zero without that limit.
	pieceRow int
	chosen   int
	boundRow int
	value    [][]float64 // value is what a piece on each span is worth.
	best     []worth
}

// worth is the best way to reach a sum.
type worth struct {
	value float64
	from  int32
	by    int32
}

// relax solves the linear program; patterns are generated as they are needed
// (Gilmore and Gomory, Operations Research 9, 1961, from memory).
func (m *model) relax(q question, w weight) relaxed {
	r := &relaxation{m: m, q: q, w: w, stickRow: -1, pieceRow: -1, chosen: -1}
	r.rows()
	for _, k := range m.known {
		if !k.chosen || q.chosen && m.sticks[k.stock].length-k.sum >= q.offcut {
			r.add(k)
		}
	}
	r.best = make([]worth, len(m.sums))
	r.value = make([][]float64, len(m.lengths))
	r.p.price = r.price
	cost, feasible, sound := r.p.minimise()
	out := relaxed{cost: cost, feasible: feasible, sound: sound}
	for row, at := range r.p.basis {
		if at >= r.first && r.p.level[row] > nearly {
			out.shares = append(out.shares, share{r.patterns[at-r.first], r.p.level[row]})
		}
	}
	if feasible {
		m.remember(out.shares)
	}
	return out
}

// remember keeps the patterns of a solution for the next question.
func (m *model) remember(shares []share) {
	for _, s := range shares {
		if !m.knows(s.pattern) {
			m.known = append(m.known, s.pattern)
		}
	}
}

func (m *model) knows(p pattern) bool {
	for _, k := range m.known {
		if k.stock == p.stock && k.chosen == p.chosen && k.sum == p.sum && len(k.spans) == len(p.spans) {
			same := true
			for i := range k.spans {
				same = same && k.spans[i] == p.spans[i]
			}
			if same {
				return true
			}
		}
	}
	return false
}

// rows writes the right sides, and a slack column for each limit.
func (r *relaxation) rows() {
	last := r.m.last()
	r.p.right = append(r.p.right, float64(r.q.rows))
	for v := 1; v < last; v++ {
		r.p.right = append(r.p.right, float64(r.q.balance[v]))
	}
	limit := func(most, slack float64) int {
		row := len(r.p.right)
		r.p.right = append(r.p.right, most)
		r.p.columns = append(r.p.columns, column{terms: []term{{row, slack}}})
		return row
	}
	for _, n := range r.q.left {
		limit(float64(n), 1)
	}
	if r.q.sticks < unlimited {
		r.stickRow = limit(float64(r.q.sticks), 1)
	}
	if r.q.pieces < unlimited {
		r.pieceRow = limit(float64(r.q.pieces), 1)
	}
	r.boundRow = len(r.p.right)
	for _, b := range r.q.bounds {
		if b.atLeast {
			limit(float64(b.n), -1)
		} else {
			limit(float64(b.n), 1)
		}
	}
	if r.q.chosen {
		r.chosen = len(r.p.right)
		r.p.right = append(r.p.right, 1)
	}
	r.first = len(r.p.columns)
}

// column writes a pattern as a column.
func (r *relaxation) column(k pattern) column {
	c := column{cost: r.w.stick}
	for _, s := range k.spans {
		c.cost += r.w.of(s)
	}
	c.terms = append(c.terms, term{r.m.last() + k.stock, 1})
	if r.stickRow >= 0 {
		c.terms = append(c.terms, term{r.stickRow, 1})
	}
	if r.pieceRow >= 0 {
		c.terms = append(c.terms, term{r.pieceRow, float64(len(k.spans))})
	}
	if k.chosen {
		c.terms = append(c.terms, term{r.chosen, 1})
	}
	for _, s := range k.spans {
		if s.from == 0 {
			c.terms = append(c.terms, term{0, 1})
		} else {
			c.terms = append(c.terms, term{s.from, -1})
		}
		if s.to < r.m.last() {
			c.terms = append(c.terms, term{s.to, 1})
		}
		for i, b := range r.q.bounds {
			if b.span == s {
				c.terms = append(c.terms, term{r.boundRow + i, 1})
			}
		}
	}
	return c
}

func (r *relaxation) add(k pattern) {
	r.p.columns = append(r.p.columns, r.column(k))
	r.patterns = append(r.patterns, k)
}

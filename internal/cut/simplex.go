package cut

import "math"

// column is one variable of a linear program: its cost, and by how much one of
// it moves each row.
type column struct {
	cost  float64
	terms []term
}

type term struct {
	row int
	by  float64
}

// program is a linear program in the making: minimise cost, every row equal to
// its right side, every variable zero or more. It is solved by the revised
// simplex method with a dense inverse, which suits a few dozen rows, and with a
// stand-in of prohibitive cost in each row to begin with. More columns are asked
// of price when those at hand are used up.
type program struct {
	right   []float64
	columns []column
	price   func(dual []float64) []column

	basis   []int // basis holds the column of each row; below zero is the row's stand-in.
	inverse [][]float64
	level   []float64
}

const (
	tiny       = 1e-9
	nearly     = 1e-6 // nearly is how far from a whole number still counts as one.
	prohibited = 1e4  // prohibited is the cost of a stand-in.
	maxPivots  = 20_000
	patience   = 60 // patience is how many pivots may gain nothing before the rule changes.
)

// minimise gives the cost of the best solution. It is not feasible if a stand-in
// is left, and not sound (a numerical breakdown) only in theory.
func (p *program) minimise() (cost float64, feasible, sound bool) {
	p.begin()
	idle := 0
	for range maxPivots {
		dual := p.duals()
		enter := p.entering(dual, idle > patience)
		if enter < 0 {
			more := p.price(dual)
			if len(more) == 0 {
				cost, feasible = p.value()
				return cost, feasible, true
			}
			enter = len(p.columns)
			p.columns = append(p.columns, more...)
		}
		step, ok := p.pivot(enter, idle > patience)
		if !ok {
			return 0, false, false
		}
		if idle++; step > tiny {
			idle = 0
		}
	}
	return 0, false, false
}

// begin makes a basis of stand-ins, each of the sign that its row needs.
func (p *program) begin() {
	rows := len(p.right)
	p.basis = make([]int, rows)
	p.level = make([]float64, rows)
	p.inverse = make([][]float64, rows)
	cells := make([]float64, rows*rows)
	for r, right := range p.right {
		p.basis[r] = -1 - r
		p.level[r] = math.Abs(right)
		p.inverse[r] = cells[r*rows : (r+1)*rows]
		p.inverse[r][r] = 1
		if right < 0 {
			p.inverse[r][r] = -1
		}
	}
}

func (p *program) costOf(row int) float64 {
	if p.basis[row] < 0 {
		return prohibited
	}
	return p.columns[p.basis[row]].cost
}

// duals gives what one more of each row's right side would cost.
func (p *program) duals() []float64 {
	dual := make([]float64, len(p.right))
	for r := range p.basis {
		cost := p.costOf(r)
		if cost == 0 {
			continue
		}
		for i, v := range p.inverse[r] {
			dual[i] += cost * v
		}
	}
	return dual
}

// reduced gives what one of the column would cost beyond what it saves.
func (c column) reduced(dual []float64) float64 {
	cost := c.cost
	for _, t := range c.terms {
		cost -= dual[t.row] * t.by
	}
	return cost
}

// entering gives the column that saves most, or below zero if none saves. The
// first that saves (Bland's rule) cannot cycle.
func (p *program) entering(dual []float64, first bool) int {
	best, enter := -nearly, -1
	for i, c := range p.columns {
		if saves := c.reduced(dual); saves < best {
			if best, enter = saves, i; first {
				break
			}
		}
	}
	return enter
}

// pivot brings a column into the basis and says how far it went in. With first,
// ties are settled by Bland's rule too.
func (p *program) pivot(enter int, first bool) (step float64, ok bool) {
	rows := len(p.right)
	along := make([]float64, rows)
	for _, t := range p.columns[enter].terms {
		for r := range along {
			along[r] += p.inverse[r][t.row] * t.by
		}
	}
	leave := -1
	step = math.Inf(1)
	for r, a := range along {
		if a <= nearly {
			continue
		}
		limit := max(0, p.level[r]) / a
		tie := leave >= 0 && limit < step+tiny && (first && p.basis[r] < p.basis[leave] || !first && p.prefers(r, leave, a, along[leave]))
		if leave < 0 || limit < step-tiny || tie {
			leave, step = r, min(limit, step)
		}
	}
	if leave < 0 {
		return 0, false
	}
	for r := range p.level {
		p.level[r] -= step * along[r]
	}
	p.level[leave] = step
	p.basis[leave] = enter
	pivotRow := p.inverse[leave]
	for i := range pivotRow {
		pivotRow[i] /= along[leave]
	}
	for r := range p.inverse {
		if a := along[r]; r != leave && a != 0 {
			row := p.inverse[r]
			for i, v := range pivotRow {
				row[i] -= a * v
			}
		}
	}
	return step, true
}

// prefers settles a tie for the row to leave: stand-ins first, then the larger
// pivot, which keeps the numbers sound.
func (p *program) prefers(row, than int, a, b float64) bool {
	if out, was := p.basis[row] < 0, p.basis[than] < 0; out != was {
		return out
	}
	return a > b
}

func (p *program) value() (cost float64, feasible bool) {
	feasible = true
	for r, at := range p.basis {
		if at >= 0 {
			cost += p.columns[at].cost * p.level[r]
		} else if p.level[r] > nearly {
			feasible = false
		}
	}
	return cost, feasible
}

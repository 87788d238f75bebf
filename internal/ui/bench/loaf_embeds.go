package bench

import (
	"math"

	"bench/internal/form"
	"bench/internal/steps"
)

// embedsIn says of each embed of a layer whether it is in this loaf.
func (d *loafDrawing) embedsIn(i int) []bool {
	layer := d.b.State.Control.Recipe.Layers[i]
	in := make([]bool, len(layer.Embeds))
	for n, e := range layer.Embeds {
		task, _, _ := d.b.Plan.Task(steps.EmbedTask(layer.Name, d.loaf, e.Name))
		in[n] = task.Done && task.Skipped == ""
	}
	return in
}

// embeds draws the outlines of a layer's embeds where they lie under the
// surface that this loaf has. One that is in is cut out of the layers.
func (d *loafDrawing) embeds(i int) {
	layer, plan := d.b.State.Control.Recipe.Layers[i], d.b.Plan.Layers[i]
	if d.loaf >= len(plan.Loaves) {
		return
	}
	for n, in := range d.embedsIn(i) {
		sign := embedToCome
		if in {
			sign = embedIn
		}
		d.outline(layer.Embeds[n].Outline(plan.Loaves[d.loaf].Surface), sign, in)
	}
}

// outline marks the cells that the outline runs through, and empties those
// inside when it is solid.
func (d *loafDrawing) outline(o form.Outline, sign rune, solid bool) {
	left, bottom, right, top := o.Box()
	middle, centre := (left+right)/2, (bottom+top)/2
	marked := map[int][2]int{} // The first and the last cell of each row.
	points := o.Boundary()
	for n, from := range points {
		to := points[(n+1)%len(points)]
		pieces := 1 + int(4*max(math.Abs(to.X-from.X)*d.perX(), math.Abs(to.Y-from.Y)*d.perY()))
		for k := range pieces {
			share := float64(k) / float64(pieces)
			x, y := from.X+(to.X-from.X)*share, from.Y+(to.Y-from.Y)*share
			// A hair inwards, or the far edges would fall into the next cell.
			row, col, ok := d.cell(x+(middle-x)*1e-6, y+(centre-y)*1e-6)
			if !ok {
				continue
			}
			ends, seen := marked[row]
			if !seen {
				ends = [2]int{col, col}
			}
			marked[row] = [2]int{min(ends[0], col), max(ends[1], col)}
			d.cells[row][col] = sign
		}
	}
	for row, ends := range marked {
		for col := ends[0]; solid && col <= ends[1]; col++ {
			if d.cells[row][col] != sign {
				d.cells[row][col] = ' '
			}
		}
	}
}

// cell gives the cell in which a place of the section lies.
func (d *loafDrawing) cell(x, y float64) (row, col int, ok bool) {
	col = int(x * d.perX())
	row = d.rows - 1 - int(y*d.perY())
	return row, col, x >= 0 && y >= 0 && row >= 0 && col < d.cols
}

// perX and perY give the cells that a millimetre takes.
func (d *loafDrawing) perX() float64 { return float64(d.cols) / d.b.Plan.Mould.Width.Millimetres() }

func (d *loafDrawing) perY() float64 { return float64(d.rows) / d.b.Plan.Mould.Height.Millimetres() }

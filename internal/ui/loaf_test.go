package ui

import (
	"strings"
	"testing"
)

// drawn gives the rows of the loaf between its walls, from the rim down.
func drawn(p *person) []string {
	task, stage, _ := p.m.bench.current(p.moment())
	var rows []string
	for _, l := range p.m.bench.loaf(p.m.deps.Theme, loafWidth, 32, stage, task) {
		if parts := strings.Split(l, "│"); len(parts) == 3 {
			rows = append(rows, parts[1])
		}
	}
	return rows
}

// filledRows counts the rows that hold batter.
func filledRows(rows []string) int {
	n := 0
	for _, r := range rows {
		if strings.ContainsAny(r, "▒░▓") {
			n++
		}
	}
	return n
}

// TestLoafFills holds the loaf to being filled as far as it was poured: to the
// pour line first, and to the finished surface once the embeds are in.
func TestLoafFills(t *testing.T) {
	p := arrives(t, newMemory()).sized(120, 40).starts().works("sea/base/loaf 1/pour")
	rows := drawn(p)
	if len(rows) != 11 || filledRows(rows) != 0 || !strings.Contains(strings.Join(rows, ""), string(embedToCome)) {
		t.Fatalf("before the first pour:\n%s", strings.Join(rows, "\n"))
	}
	p.press("space").sees("loaf 2 of 3", "base: pour to 22.5 mm")
	if n := filledRows(drawn(p)); n != 0 {
		t.Errorf("%d rows of loaf 2 are filled before it is poured", n)
	}
	p.works("dusk/shea").sees("loaf 1 of 3", "base: poured to 22.5 mm")
	// Rows of 5.9 mm: 22.5 mm reach past the middle of the fourth, and not of the fifth.
	if n := filledRows(drawn(p)); n != 4 {
		t.Errorf("%d rows are filled to 22.5 mm", n)
	}
	p.works("dusk/lye jug").sees("base: poured to 30 mm")
	rows = drawn(p)
	if n := filledRows(rows); n != 5 || !strings.Contains(strings.Join(rows, ""), string(embedIn)) {
		t.Errorf("%d rows are filled to 30 mm:\n%s", n, strings.Join(rows, "\n"))
	}
}

// TestEmbedsLieWhereTheyBelong holds the outline of an embed to its place: the
// moon of the built-in design lies right of the middle.
func TestEmbedsLieWhereTheyBelong(t *testing.T) {
	p := arrives(t, newMemory()).sized(120, 40).starts()
	mould := p.m.bench.plan.Mould
	d := loafDrawing{b: p.m.bench}
	d.size(24, 40)
	for i, l := range p.m.bench.state.Control.Recipe.Layers {
		for _, e := range l.Embeds {
			for k := range d.cells {
				d.cells[k] = []rune(spaces(d.cols))
			}
			d.outline(e.Outline(p.m.bench.plan.Layers[i].Surface), embedIn, false)
			first, last := d.cols, -1
			for _, row := range d.cells {
				for col, r := range row {
					if r == embedIn {
						first, last = min(first, col), max(last, col)
					}
				}
			}
			cell := mould.Width.Millimetres() / float64(d.cols)
			left := (e.Across - e.Width/2).Millimetres() / cell
			right := (e.Across + e.Width/2).Millimetres() / cell
			if float64(first) > left+1 || float64(first) < left-1 || float64(last) > right || float64(last) < right-2 {
				t.Errorf("%s is drawn from %d to %d, not from %.1f to %.1f", e.Name, first, last, left, right)
			}
		}
	}
}

package bench

import (
	"io/fs"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/recipe"
	"bench/internal/recipe/read"
	"bench/internal/timer"
	"bench/internal/ui/ink"
	"bench/recipes"
)

// TestEmbedsLieWhereTheyBelong holds the outline of an embed to its place: the
// moon of the built-in design lies right of the middle.
func TestEmbedsLieWhereTheyBelong(t *testing.T) {
	b := harbour(t)
	mould := b.Plan.Mould
	d := loafDrawing{b: b}
	d.size(24, 40)
	for i, l := range b.State.Control.Recipe.Layers {
		for _, e := range l.Embeds {
			for k := range d.cells {
				d.cells[k] = []rune(ink.Spaces(d.cols))
			}
			d.outline(e.Outline(b.Plan.Layers[i].Surface), embedIn, false)
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

// harbour gives a batch of the built-in design that has just begun.
func harbour(t *testing.T) Screen {
	t.Helper()
	data := func(name string) []byte {
		text, err := fs.ReadFile(recipes.FS(), name)
		if err != nil {
			t.Fatal(err)
		}
		return text
	}
	w, _, problems := read.Workshop(recipes.WorkshopFile, data(recipes.WorkshopFile))
	if read.Failed(problems) {
		t.Fatal(problems)
	}
	const file = "lighthouse-at-dusk.yaml"
	r, _, problems := read.Recipe(file, data(file))
	if read.Failed(problems) {
		t.Fatal(problems)
	}
	c, _ := recipe.Resolve(r, string(data(file)), w, 3)
	return New("26K25A", batch.Fold([]batch.Entry{{Seq: 1, Fact: batch.Started{Control: c}}}), time.UTC, false, timer.Moment{})
}

package recipe_test

import (
	"strings"
	"testing"
	"time"

	"bench/internal/quantity"
	"bench/internal/recipe"
)

// TestStockOf: of five sticks batches took some. A file that lists no more than there
// should be knows of it; one that lists more is asked about, and so it is until somebody
// looked. Sums are by hand.
func TestStockOf(t *testing.T) {
	day := func(n int) time.Time { return time.Date(2026, 11, n, 9, 0, 0, 0, time.UTC) }
	// took is so many sticks of a batch that was planned on a day, with so many there, and
	// cut on another; on day 0 not yet.
	took := func(batch string, n, planned, there, cut int) []recipe.StickUse {
		var list []recipe.StickUse
		for i := range n {
			u := recipe.StickUse{Batch: batch, N: i + 1, Stick: "Keel", Lot: "K-1", Length: 300 * quantity.Millimetre, There: there, Planned: day(planned)}
			if cut > 0 {
				u.Cut = day(cut)
			}
			list = append(list, u)
		}
		return list
	}
	a, b := took("26K20A", 2, 20, 5, 25), took("26K26A", 2, 26, 3, 0)
	for name, c := range map[string]struct {
		listed int
		used   [][]recipe.StickUse
		there  int
		gone   string
	}{
		"nobody took any":            {5, nil, 5, ""},
		"the file is of before":      {5, [][]recipe.StickUse{a}, 3, "keel of 300 mm, lot K-1: 2 sticks went into batch 26K20A on 25 Nov"},
		"the file knows":             {3, [][]recipe.StickUse{a}, 3, ""},
		"it lists fewer":             {1, [][]recipe.StickUse{a}, 1, ""},
		"one went in":                {5, [][]recipe.StickUse{took("26K20A", 1, 20, 5, 25)}, 4, "keel of 300 mm, lot K-1: stick 1 went into batch 26K20A on 25 Nov"},
		"planned, and not cut yet":   {3, [][]recipe.StickUse{a, b}, 1, "keel of 300 mm, lot K-1: 2 sticks planned for batch 26K26A"},
		"side by side":               {5, [][]recipe.StickUse{took("26K20A", 2, 20, 5, 25), took("26K21A", 2, 21, 5, 24)}, 1, "2 sticks went into batch 26K20A on 25 Nov, 2 sticks went into batch 26K21A on 24 Nov"},
		"what there was not known":   {5, [][]recipe.StickUse{took("26K20A", 2, 20, 0, 25)}, 3, "2 sticks went into batch 26K20A on 25 Nov"},
		"new ones, somebody looked":  {11, [][]recipe.StickUse{a, took("26K26A", 2, 26, 13, 27)}, 11, ""},
		"new ones, and not put down": {13, [][]recipe.StickUse{a, took("26K26A", 2, 26, 13, 27)}, 11, "2 sticks went into batch 26K26A on 27 Nov"},
		"more than there were":       {2, [][]recipe.StickUse{took("26K20A", 3, 20, 2, 25)}, 0, "3 sticks went into"},
	} {
		w := recipe.Workshop{Sticks: []recipe.Stick{
			{Name: "keel", Lot: "K-1", Length: 300 * quantity.Millimetre, Count: c.listed},
			{Name: "keel", Lot: "K-2", Length: 300 * quantity.Millimetre, Count: 7},
			{Name: "mast", Lot: "K-1", Length: 300 * quantity.Millimetre, Count: 7},
		}}
		for _, used := range c.used {
			w.Used = append(w.Used, used...)
		}
		list := w.StockOf("keel")
		if len(list) != 2 || list[0].Listed != c.listed || list[0].There != c.there || list[1].There != 7 {
			t.Errorf("%s: %+v", name, list)
			continue
		}
		gone, doubt := list[0].Gone("keel"), list[0].Doubt("keel")
		if c.gone == "" && gone != "" || !strings.Contains(gone, c.gone) || (doubt == "") != (gone == "") {
			t.Errorf("%s: %q, %q; want %q", name, gone, doubt, c.gone)
		}
	}
}

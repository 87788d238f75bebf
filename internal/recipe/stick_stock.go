package recipe

import (
	"fmt"
	"strings"
	"time"

	"bench/internal/cut"
	"bench/internal/quantity"
)

// StickUse is one stick on hand that a batch took, or is still to take.
type StickUse struct {
	Batch   string // Batch is its code.
	N       int    // N is the number of the stick in the plan of that batch.
	Stick   string // Stick is its design.
	Lot     string
	Length  quantity.Length
	There   int       `json:",omitempty"` // There is how many of its kind there should have been when that batch was planned; zero is not known.
	Planned time.Time // Planned is when that batch began.
	Cut     time.Time `json:",omitzero"` // Cut is when the stick was set out and cut; zero is not yet.
}

// StickStock is the sticks of one design, lot and length that the workshop file lists. The
// file is the maker's: it may not know yet what batches took since.
type StickStock struct {
	Lot    string
	Length quantity.Length
	Listed int
	There  int        // There is how many there should be, by the facts of other batches.
	Taken  []StickUse `json:",omitempty"` // Taken are those that the file seems not to know of.
}

// Holds says that a stick is of this stock.
func (s StickStock) Holds(lot string, length quantity.Length) bool {
	return s.Lot == lot && s.Length == length
}

// StockOf gives the sticks on hand of one design, kind by kind, as the batches have left
// them.
func (w Workshop) StockOf(name string) []StickStock {
	var list []StickStock
	for _, s := range w.SticksOf(name) {
		at := indexOfStock(list, s)
		if at < 0 {
			at = len(list)
			list = append(list, StickStock{Lot: s.Lot, Length: s.Length})
		}
		list[at].Listed += s.Count
	}
	for i := range list {
		list[i].reckon(name, w.Used)
	}
	return list
}

func indexOfStock(list []StickStock, s cut.Stick) int {
	for i := range list {
		if list[i].Holds(s.Lot, s.Length) {
			return i
		}
	}
	return -1
}

// reckon says how many sticks there should be: what there was when the last batch that
// takes of them was planned, less what was taken since. A file that lists no more than that
// knows of it all; one that lists more is of before, or new sticks were made.
func (s *StickStock) reckon(name string, used []StickUse) {
	var own, since []StickUse
	var last StickUse
	for _, u := range used {
		if Fold(u.Stick) == Fold(name) && s.Holds(u.Lot, u.Length) {
			if own = append(own, u); !u.Planned.Before(last.Planned) {
				last = u
			}
		}
	}
	for _, u := range own {
		if last.There == 0 || u.Cut.IsZero() || !u.Cut.Before(last.Planned) {
			since = append(since, u)
		}
	}
	there := last.There
	if there == 0 {
		there = s.Listed
	}
	s.There = s.Listed
	if there = max(0, there-len(since)); there < s.Listed {
		s.There, s.Taken = there, since
	}
}

// Gone says which batches took sticks that the file seems not to know of, or "".
func (s StickStock) Gone(stick string) string {
	var went []string
	for i := 0; i < len(s.Taken); {
		first, n := s.Taken[i], 0
		cut := first.Cut
		for ; i < len(s.Taken) && s.Taken[i].Batch == first.Batch && s.Taken[i].Cut.IsZero() == first.Cut.IsZero(); i++ {
			n, cut = n+1, s.Taken[i].Cut
		}
		count := quantity.Count(n, "stick", "sticks")
		if n == 1 {
			count = fmt.Sprintf("stick %d", first.N)
		}
		if cut.IsZero() {
			went = append(went, fmt.Sprintf("%s planned for batch %s", count, first.Batch))
		} else {
			went = append(went, fmt.Sprintf("%s went into batch %s on %s", count, first.Batch, cut.Format("2 Jan")))
		}
	}
	if len(went) == 0 {
		return ""
	}
	return fmt.Sprintf("%s of %s, lot %s: %s", stick, s.Length, s.Lot, strings.Join(went, ", "))
}

// Doubt says how the file and the facts of batches differ, and what to do, or "".
func (s StickStock) Doubt(stick string) string {
	gone := s.Gone(stick)
	if gone == "" {
		return ""
	}
	return fmt.Sprintf("%s; the workshop file lists %d, and %d should be left: measure what is left, and list that", gone, s.Listed, s.There)
}

package tell_test

import (
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/tell"
)

func TestFact(t *testing.T) {
	const g, tenth = quantity.Gram, quantity.Gram / 10
	on := batch.Said{When: time.Date(2026, 3, 9, 12, 0, 0, 0, time.UTC)}
	doubted := batch.Said{Asked: "heavier than before", Answer: "the scale drifts"}
	for want, f := range map[string]batch.Fact{
		"loaf 2: 9 bars cut, planned 10: one broke":                                   batch.BarsCut{Loaf: 2, Bars: 9, Planned: 10, Why: "one broke"},
		"loaf 1: 1 bar cut":                                                           batch.BarsCut{Loaf: 1, Bars: 1, Planned: 1},
		"loaf 1: 10 bars: 1124.0 g together, 112.4 g each":                            batch.BarsWeighed{Loaf: 1, Count: 10, Mass: 1124 * g, Reads: tenth},
		"bar 3 weighs 108.4 g, on 2026-03-09":                                         batch.WeighedIn{Bar: "3", Mass: 1084 * tenth, Reads: tenth, Said: on},
		"bar 3 weighs 110.0 g (asked: heavier than before; answer: the scale drifts)": batch.WeighedIn{Bar: "3", Mass: 110 * g, Reads: tenth, Said: doubted},
		"pH 9.6, passed":                             batch.Tested{Test: batch.PHTest, Value: 9.6, Passed: true},
		"free alkali 0.08 % as NaOH, failed":         batch.Tested{Test: batch.FreeAlkaliTest, Value: 0.08},
		"12 bars went to the market stall":           batch.BarsWent{Count: 12, Where: "the market stall"},
		"held by the maker: pale (open: not tested)": batch.Held{By: "the maker", Reason: "pale", Open: []string{"not tested"}},
		"made of batch 260302A, 900 g: too soft":     batch.Reworks{Batch: "260302A", Mass: 900 * g, Reason: "too soft"},
		"set aside: no leftover batter":              batch.SetAside{Piece: batch.LeftoverBatter},
		"set aside: leftover batter":                 batch.SetAside{Piece: batch.LeftoverBatter, Count: 1},
		"set aside: leftover batter, 12.0 g":         batch.SetAside{Piece: batch.LeftoverBatter, Count: 1, Mass: 12 * g},
		"noted":                                      batch.Noted{Text: "of the work, which the plan tells"},
	} {
		if got := tell.Fact(f); got != want {
			t.Errorf("%T is told as %q, want %q", f, got, want)
		}
	}
}

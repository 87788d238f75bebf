package ledger

import (
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/cut"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/timer"
)

// TestSticksUsed: a stick that was cut is found in a batch that is closed, whether it was
// laid or not, and one that is planned in a batch under way; others of that lot are not.
func TestSticksUsed(t *testing.T) {
	l := past(t, 3)
	at := timer.Moment{Wall: time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)}
	begin := func(facts ...batch.Fact) string {
		code, _, err := l.Start(recipe.Control{Sticks: []recipe.StickPlan{{Stick: "keel", Plan: cut.Plan{Sticks: []cut.Strip{
			{N: 1, Lot: "K-1", Length: 300 * quantity.Millimetre}, {N: 2, Lot: "K-1", Length: 300 * quantity.Millimetre}, {N: 3, Fresh: true},
		}}}}}, at)
		for _, f := range facts {
			if err == nil {
				_, err = l.Append(code, f, at)
			}
		}
		if err != nil {
			t.Fatal(err)
		}
		return code
	}
	w := recipe.Workshop{Sticks: []recipe.Stick{{Name: "keel", Lot: "K-1"}}}
	done := begin(batch.Ticked{Task: "set out/keel/stick 1"}, batch.Closed{Reason: "fog"})
	begin(batch.Closed{Reason: "fog"})
	if used := l.SticksUsed(w); len(used) != 1 || used[0].Batch != done || used[0].N != 1 || !used[0].Cut.Equal(at.Wall) {
		t.Errorf("%+v", used)
	}
	if used := l.SticksUsed(recipe.Workshop{}); used != nil {
		t.Errorf("no sticks are listed: %+v", used)
	}
	if found, err := l.Find(Query{Lot: "K-1"}); err != nil || len(found) != 0 {
		t.Errorf("it was cut, and not laid: %+v, %v", found, err)
	}
	open := begin()
	if used := l.SticksUsed(w); len(used) != 3 || used[2].Batch != open || !used[2].Cut.IsZero() {
		t.Errorf("%+v", used)
	}
}

package batch_test

import (
	"testing"

	"bench/internal/batch"
)

// TestAnswered: an answer for what is shared counts, as a fact and as the note that it
// was before; another note does not.
func TestAnswered(t *testing.T) {
	const full = "lye jug A holds the sea lye solution of batch 26K25A"
	const open = "batch 26K25A has lye open: lye jug A holds the sea lye solution"
	s := fold(begun)
	for _, f := range []batch.Fact{
		batch.SharedAnswered{Shared: full, Answer: "emptied"},
		batch.Noted{Stage: "lye/sea", Text: full + ": took the spare jug, 214.0 g empty"},
		batch.Noted{Text: open + ": it is lidded"},
	} {
		next := s.Apply(entry(2, f))
		if said := next.Answered(full) || next.Answered(open); !said || s.Answered(full) {
			t.Errorf("%+v answers for nothing", f)
		}
		if batch.Fold(next.Entries).Answered(full) != next.Answered(full) {
			t.Errorf("%+v folds otherwise", f)
		}
		if gone := next.Apply(entry(3, batch.Withdrawn{Seq: 2, Reason: "no"})); gone.Answered(full) || gone.Answered(open) {
			t.Errorf("%+v was taken back", f)
		}
	}
	if n := fold(begun, batch.Noted{Text: "window open: cold"}); n.Answered("window open") || n.Answered("") {
		t.Error("a note about the window answers")
	}
	if n := fold(begun, batch.SharedAnswered{Shared: "sea"}, batch.Noted{Text: "sea: the jug of batch 26K25A"}); n.WarningSeen("sea") {
		t.Error("an answer about a jug, or a note, answers the warning of a batter")
	}
	if n := fold(begun, batch.WarningSeen{Batter: "scent/sea"}); !n.WarningSeen("scent/sea") || n.WarningSeen("sea") || n.Answered("scent/sea") {
		t.Error("one warning was read, and nothing else")
	}
}

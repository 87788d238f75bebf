package batch_test

import (
	"testing"

	"bench/internal/batch"
	"bench/internal/quantity"
)

// TestReplacements: a vessel that was replaced folds into the state with its number, a
// corrected tare in the place of the first, and nothing of one that was taken back.
func TestReplacements(t *testing.T) {
	jug := batch.VesselReplaced{Vessel: "jug 1", By: "spare jug", Tare: 241 * g, Held: "loaf 1's portion of sea"}
	right := jug
	right.Tare = 214 * g
	other := jug
	other.By = "pail"
	s := fold(begun, jug, batch.VesselReplaced{Vessel: "pot 1", By: "kettle", Tare: 900 * g, Brim: 3 * quantity.Litre})
	if r := s.Replacements(); len(r) != 2 || r[0].Fact != jug || r[0].Seq != 2 || r[1].Fact.Brim != 3*quantity.Litre || r[1].At.Wall.Minute() != 3 {
		t.Fatalf("%+v", r)
	}
	before := s
	s = s.Apply(entry(4, batch.Corrected{Seq: 2, Reason: "misread", With: right}))
	s = s.Apply(entry(5, batch.Corrected{Seq: 2, Reason: "another vessel is another fact", With: other}))
	if r := s.Replacements(); len(r) != 2 || r[0].Fact != jug || r[0].Seq != 2 {
		t.Errorf("the name was corrected: %+v", r) // The last word is no correction of it, so the first stands.
	}
	s = before.Apply(entry(4, batch.Corrected{Seq: 2, Reason: "misread", With: right}))
	if r := s.Replacements(); r[0].Fact != right || before.Replacements()[0].Fact != jug {
		t.Errorf("corrected: %+v", r)
	}
	if s = s.Apply(entry(5, batch.Withdrawn{Seq: 2, Reason: "it was jug 1"})); len(s.Replacements()) != 1 {
		t.Errorf("taken back: %+v", s.Replacements())
	}
	if batch.Task(jug) != "" || batch.Late(jug) {
		t.Error("it answers a task, or follows the end")
	}
}

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
}

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

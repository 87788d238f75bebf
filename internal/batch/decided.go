package batch

import (
	"bench/internal/quantity"
	"bench/internal/timer"
)

// Way is a manner of going on after a weight that was off.
type Way string

// The ways of going on.
const (
	CarryOn      Way = "carry on"             // CarryOn lets the rest follow.
	InProportion Way = "in proportion"        // InProportion brings everything else up.
	PourPart     Way = "pour part"            // PourPart keeps back some of a lye solution.
	Shortfall    Way = "dissolve the missing" // Shortfall brings in the alkali that is missing.
	MakeUp       Way = "make up"              // MakeUp weighs so much more or less of the other alkali.
	AddOil       Way = "add oil"              // AddOil takes up alkali, or makes up for oil, that is off.
	AddMissing   Way = "add the missing"      // AddMissing brings in what is missing of water, an additive, a scent or a portion.
	TakeOut      Way = "take out"             // TakeOut takes out again what is not mixed with anything yet.
	PourBack     Way = "pour back"            // PourBack puts some of a portion back into the vessel that it came out of.
	PourOver     Way = "pour over"            // PourOver evens two portions out, one over and one under.
	HoldBatch    Way = "hold the batch"       // HoldBatch pours what is over a scent's limit, and holds the bars.
)

// Decided says how to go on after a weight that was off.
type Decided struct {
	Task string        // Task is the weighing that was off.
	Off  quantity.Mass // Off is by how much, as it stood; below zero is too little.
	// Within is how little a correction may change Off for the decision to stand.
	Within quantity.Mass `json:",omitempty"`
	ByEye  bool          `json:",omitempty"` // ByEye says that it was no weighing.
	Way    Way
	Oil    string        `json:",omitempty"` // Oil is the key of the oil to add.
	Mass   quantity.Mass `json:",omitempty"` // Mass is what is to be added, or poured back or over.
	Other  string        `json:",omitempty"` // Other is the portion that gets what this one has too much of, or gives what it lacks.
}

// PotWeighed says what a vessel weighed when somebody wanted to know whether
// all is in it, and what came of it.
type PotWeighed struct {
	Vessel   string
	Gross    quantity.Mass
	Expected quantity.Mass
	Finding  string
}

// PotAnswered says how it stands after all with a vessel whose weight was off, by
// somebody who weighed nothing again.
type PotAnswered struct {
	Look    int // Look numbers the fact that the vessel was weighed.
	Vessel  string
	Finding string // Finding is what is answered, in words.
	Answer  string
}

// Look is a vessel that was weighed to see whether all is in, as it now stands.
type Look struct {
	Fact PotWeighed
	Seq  int
}

// Looks gives the looks into vessels, oldest first.
func (s State) Looks() []Look { return s.looks }

// PotAnswered says that somebody said how it stands after a look.
func (s State) PotAnswered(look int) bool { return s.answered[asked{look: look}] }

func (Decided) fact()     {}
func (PotWeighed) fact()  {}
func (PotAnswered) fact() {}

// Decision is the last word on a weighing that was off, with its moment.
type Decision struct {
	Fact Decided
	Seq  int
	At   timer.Moment
}

// Decision gives how it was decided to go on after a weighing.
func (s State) Decision(task string) (Decision, bool) {
	all := s.decided[task]
	if len(all) == 0 {
		return Decision{}, false
	}
	return all[len(all)-1], true
}

// Decisions gives all that was decided after a weighing, oldest first: what was
// added on an earlier one is in, whatever was decided since.
func (s State) Decisions(task string) []Decision { return s.decided[task] }

// Undecided says that no decision was taken in this batch, as in most.
func (s State) Undecided() bool { return len(s.decided) == 0 }

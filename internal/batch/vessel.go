package batch

import (
	"strings"

	"bench/internal/quantity"
	"bench/internal/timer"
)

// VesselReplaced says that another vessel was taken in the place of one of the plan,
// for all that it held then and for all that was still to go into it.
type VesselReplaced struct {
	Vessel string          // Vessel is the one that the plan named.
	By     string          // By is the one that was taken.
	Tare   quantity.Mass   // Tare is that of By, empty.
	Brim   quantity.Volume `json:",omitempty"` // Brim is what By holds to the brim; zero is not known.
	Held   string          // Held says in words what stood in it, or was to.
}

// SharedAnswered says what somebody answered about a vessel that holds something of
// another batch, or about another batch's lye that stands open, and went on.
type SharedAnswered struct {
	Shared string // Shared is what was asked about, in words.
	Answer string
}

func (VesselReplaced) fact() {}
func (SharedAnswered) fact() {}

// Replacement is a vessel that was replaced, as it now stands.
type Replacement struct {
	Fact VesselReplaced
	Seq  int
	At   timer.Moment
}

// Replacements gives the vessels that were replaced, oldest first.
func (s State) Replacements() []Replacement { return s.replaced }

// Answered says that somebody answered for what is shared.
func (s State) Answered(shared string) bool { return s.answered[shared] }

// answeredIn takes the answer out of a note. Programs before SharedAnswered kept it
// there: what was asked about, a colon, and the answer.
func (s *State) answeredIn(note string) {
	if !strings.Contains(note, " of batch ") && !strings.HasPrefix(note, "batch ") {
		return
	}
	for i := range note { // What was asked about may hold a colon itself.
		if strings.HasPrefix(note[i:], ": ") {
			put(&s.answered, note[:i], true)
		}
	}
}

package batch

import (
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

func (VesselReplaced) fact() {}

// Replacement is a vessel that was replaced, as it now stands.
type Replacement struct {
	Fact VesselReplaced
	Seq  int
	At   timer.Moment
}

// Replacements gives the vessels that were replaced, oldest first.
func (s State) Replacements() []Replacement { return s.replaced }

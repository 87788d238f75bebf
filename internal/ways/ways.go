// Package ways knows what can be done after a weight that was off.
//
// The rule: only what is physically possible now. What is mixed cannot be taken
// out again, and what a way adds must still be taken in. What a way comes to,
// and whether there is room for it, is tried out by steps.
package ways

import (
	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/sure"
)

// Way is one way to go on.
type Way struct {
	Fact    batch.Decided // Fact takes it.
	Title   string
	Until   string // Until says how long it is there to be taken.
	Default bool
}

// Kind is what was off.
type Kind int

// What can be off.
const (
	Oil Kind = iota
	Alkali
	Water
	Additive
	Scent
)

// Weight is a weighing that was off.
type Weight struct {
	Kind     Kind
	Material string
	OilKey   string        // OilKey is an oil's key in the table.
	Off      quantity.Mass // Off is below zero for too little.
	Reads    quantity.Mass // Reads is what its scale reads to.
	ByEye    quantity.Mass // ByEye is how much less it may be, when it was not weighed.
	Other    string        // Other is the alkali that is not weighed yet, and can make up for this one.
	Alone    bool          // Alone says that it is not mixed with anything yet.
	Over     bool          // Over says that a layer is over its scent's limit for it.
}

// Pot is where a batter stands.
type Pot struct {
	Control    recipe.Control
	Batter     recipe.Batter
	Account    sure.Account
	Finest     quantity.Mass // Finest is what the finest scale reads to.
	Strength   float64       // Strength of the lye solution as it stands, a fraction.
	Met        bool          // Met says that the lye solution is in the oils.
	Emulsified bool          // Emulsified says that emulsion was reached.
	OilsIn     bool          // OilsIn says that some oil was weighed.
	AlkaliIn   bool          // AlkaliIn says that some alkali was weighed.
	OthersIn   bool          // OthersIn says that another oil is in already.
	Shared     bool          // Shared says that the batter is shared out by now, some of it at least.
}

const (
	anyTime       = "there at any time"
	untilMet      = "until the lye solution meets the oils"
	untilPoured   = "until it is poured"
	untilStirred  = "until it is stirred in"
	untilShared   = "until the batter is shared out, or poured"
	untilTrace    = "until light trace"
	untilEmulsion = "until emulsion"
	untilItGoesOn = "until it is coloured, scented or poured"
)

// Of lists the ways, the simplest first.
func Of(p Pot, w Weight) []Way {
	list := []Way{{Fact: batch.Decided{Way: batch.CarryOn}, Title: "Carry on: what is still to come follows", Until: anyTime}}
	switch w.Kind {
	case Oil:
		return append(list, p.oil(w)...)
	case Alkali:
		return append(list, p.alkali(w)...)
	case Water:
		return p.water(w)
	case Additive:
		if w.Off < 0 && p.Shared {
			return []Way{p.tooLate(w)}
		}
		return append(list, p.stirred(w)...)
	case Scent:
		return p.scent(w)
	}
	return list
}

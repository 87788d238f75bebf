// Package uses says what each vessel of a batch is for, and what of it another batch on
// the same bench finds full, or not wiped out yet.
//
// The rule: it is told what stands where, and compares; it weighs nothing and plans
// nothing. A vessel is free when nothing is in it and what clung to it is gone.
package uses

import (
	"fmt"

	"bench/internal/quantity"
	"bench/internal/recipe"
)

// Use is what a vessel is for, from the first thing in it until it is empty again.
type Use struct {
	Vessel string
	Kind   recipe.VesselKind
	What   string        // What it holds or is to hold, such as "the sea lye solution".
	Load   quantity.Mass // Load is the most that it has to hold.
	Full   bool          // Full says that something is in it.
	Over   bool          // Over says that nothing more goes into it, and nothing is in it.
	Left   string        // Left is what was not done yet, such as "wiped out", where only what clings to it is left.
	Lye    bool          // Lye says that lye solution is made in it.
	Alkali bool          // Alkali says that lye, or dry hydroxide, stands open in it.
	Burns  bool          // Burns says that what it holds, or what clings to it, is lye, dry hydroxide or raw batter.
	Drawn  bool          // Drawn says that its weight is known and some was poured out by it.
}

// thinnest is in g/ml, that of warm palm oil: 0.889 to 0.895 at 50 °C (apparent density;
// Codex Alimentarius CXS 210, read in a transcription). Lye solution and batter are heavier.
const thinnest = 0.889

// TooSmall says that a vessel cannot hold what this use has for it, or "". One whose brim
// is not known may.
func (u Use) TooSmall(v recipe.Vessel) string {
	room := roomFor(u.Load)
	if Fits(v, u.Load) {
		return ""
	}
	return fmt.Sprintf("%s holds %.0f ml to the brim, and the %s g that go into it may take %.0f ml: take a larger one",
		v.Name, v.Brim.Millilitres(), u.Load.At(quantity.Gram), room.Millilitres())
}

// Fits says that a vessel may hold so much.
func Fits(v recipe.Vessel, load quantity.Mass) bool { return v.Brim == 0 || v.Brim >= roomFor(load) }

func roomFor(load quantity.Mass) quantity.Volume {
	return quantity.FromMillilitres(load.Grams() / thinnest)
}

// List is what all vessels of a batch are for; one that is emptied and filled again has
// several uses.
type List []Use

// Of sums up what a vessel holds and is still to hold, or says that nothing more is
// planned for it.
func (l List) Of(vessel string) (sum Use, ok bool) {
	for _, u := range l {
		if u.Over || u.Vessel != vessel {
			continue
		}
		load, drawn := max(u.Load, sum.Load), u.Drawn || sum.Drawn
		if !ok || u.Full && !sum.Full {
			sum, ok = u, true
		}
		sum.Load, sum.Drawn = load, drawn
	}
	return sum, ok
}

// TooSmall names those of the vessels that cannot hold what is to go into them.
func (l List) TooSmall(vessels []recipe.Vessel) []string {
	var words []string
	for _, v := range vessels {
		if u, ok := l.Of(v.Name); ok {
			if small := u.TooSmall(v); small != "" {
				words = append(words, small)
			}
		}
	}
	return words
}

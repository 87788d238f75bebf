package rack

import (
	"bench/internal/quantity"
	"bench/internal/recipe"
)

// Station is where a weighing takes place.
type Station struct {
	Scale  recipe.Scale
	Vessel recipe.Vessel
	Into   string // Into is the vessel it goes to, when it is weighed in another.
	Parts  int    // Parts is how many weighings the scale needs.
}

// Station chooses the scale for a weighing into a vessel that will carry load
// in the end and is planned to hold before by then: the scale the vessel stands
// on, unless that one is too coarse for the tolerance or too small; then the
// finest that can carry it, in a cup of its own. A cup is taken only where that scale is
// another one; dry alkali stays in its own as long as any scale carries that. It goes by the
// plan and not by the facts, so that no target changes its reading half way.
func (r Rack) Station(v recipe.Vessel, load, before, target, tolerance quantity.Mass) Station {
	home := r.Home(v, load)
	fineEnough := tolerance == 0 || home.Reads/2 <= tolerance
	carries := v.Tare+before+target <= home.Max
	if fineEnough && carries {
		return Station{Scale: home, Vessel: v, Parts: 1}
	}
	cup, alkali := r.ColourCup(0), v.Name == r.AlkaliCup().Name
	for _, s := range r.scales {
		switch {
		case carries && s.Reads >= home.Reads: // No other scale gains anything.
			return Station{Scale: home, Vessel: v, Parts: 1}
		case alkali && v.Tare+before+target <= s.Max:
			return Station{Scale: s, Vessel: v, Parts: 1}
		case (!alkali || !carries) && cup.Tare+target <= s.Max:
			return Station{Scale: s, Vessel: cup, Into: v.Name, Parts: 1}
		}
	}
	largest := r.scales[len(r.scales)-1]
	room := max(largest.Max-cup.Tare, largest.Reads)
	return Station{Scale: largest, Vessel: cup, Into: v.Name, Parts: int((target + room - 1) / room)}
}

// Home is the scale a vessel stands on: the finest that carries it full.
func (r Rack) Home(v recipe.Vessel, load quantity.Mass) recipe.Scale {
	for _, s := range r.scales {
		if v.Tare+load <= s.Max {
			return s
		}
	}
	return r.scales[len(r.scales)-1]
}

// Finest is the scale that reads the smallest steps.
func (r Rack) Finest() recipe.Scale { return r.scales[0] }

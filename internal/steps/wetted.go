package steps

import (
	"fmt"
	"slices"
	"strings"

	"bench/internal/quantity"
	"bench/internal/work"
)

// The policy of this file: the oil that colours are wetted with comes out of their pot by
// the spoon, and nobody weighs it. So their pot may be lighter by that without a fault, and
// what it lacked when it was weighed as a whole went into the layers with the colours.

// spoonful is the most that a cup is wetted with: a tablespoon, 15 ml, of any oil is
// lighter (common practice, no source).
const spoonful = 15 * quantity.Gram

// bySpoons says what took that which a pot lacks.
const bySpoons = "the spoons held that its colours were wetted with"

// wettedFrom counts the cups of colour that were wetted out of a shared pot between two
// facts, and how many of them were stirred in since.
func (p *planner) wettedFrom(k pot, from, to int) (cups, in int) {
	for _, t := range slices.Concat(k.colours...) {
		id, cup := strings.CutSuffix(t.ID, cupSuffix)
		if !cup || t.Mass <= 0 || t.Seq <= from || t.Seq >= to {
			continue
		}
		cups++
		if c := p.fill(work.Task{ID: id}); c.Done && c.Skipped == "" {
			in++
		}
	}
	return cups, in
}

// spoons is how much lighter a pot may be for so many cups.
func spoons(cups int) quantity.Mass { return quantity.Mass(cups) * spoonful }

// lessSpoons lets a shared pot that is weighed as a whole be lighter by what its colours
// were wetted with.
func (p *planner) lessSpoons(k pot, gross work.Task) work.Task {
	to := len(p.s.Entries) + 1
	if gross.Done {
		to = gross.Seq
	}
	cups, _ := p.wettedFrom(k, 0, to)
	if cups == 0 {
		return gross
	}
	gross.Loss, gross.Lost = spoons(cups), bySpoons
	gross.Hint = strings.TrimSpace(fmt.Sprintf("%s A spoonful of its oil went into %s of colour: up to %s g lighter is no fault.",
		gross.Hint, quantity.Count(cups, "cup", "cups"), spoons(cups).At(quantity.Gram)))
	return gross
}

// wentWithColours is what pots lacked when they were weighed as a whole, as far as that is
// the oil of colours which were stirred in since.
func (p *planner) wentWithColours() (sum quantity.Mass) {
	for _, k := range p.pots {
		if len(k.parts) == 0 || !k.gross.Done {
			continue
		}
		if cups, in := p.wettedFrom(k, 0, k.gross.Seq); cups > 0 {
			if lacked := min(k.base()-net(k.gross), spoons(cups)); lacked > k.gross.Reads { // Within a reading the scale tells nothing.
				sum += lacked * quantity.Mass(in) / quantity.Mass(cups)
			}
		}
	}
	return sum
}

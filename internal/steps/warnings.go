package steps

import (
	"fmt"
	"slices"

	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/work"
)

// The policy of this file: what the workshop lacks is said once, before anything is weighed.

// tooHeavy names the vessels that no scale of the workshop carries full.
func (p *planner) tooHeavy() []string {
	var words []string
	look := func(full *work.Task) {
		if full.Target > full.Max {
			words = append(words, fmt.Sprintf("%s weighs %s full, and no scale carries more than %s: weigh it out in two goes, or leave that weighing out and give the reason",
				full.Vessel, full.Target.RoundTo(quantity.Gram), full.Max))
		}
	}
	for i := range p.pots {
		look(&p.pots[i].gross)
	}
	for i := range p.pours {
		look(&p.pours[i].gross)
	}
	return words
}

// coarse names the weighings for which no scale of the workshop is fine
// enough. It is said once, at the setting out.
func (p *planner) coarse() []string {
	var words []string
	for _, k := range p.pots {
		for _, tasks := range [][]work.Task{k.oils, k.alkali} {
			for _, t := range tasks {
				if t.Within > 0 && t.Within < t.Reads/2 {
					words = append(words, fmt.Sprintf("%s for %s: ±%s g is wanted, and no scale that carries it reads finer than %s",
						t.Material, k.recipe.Name, t.Within.At(quantity.Gram/100), t.Reads))
				}
			}
		}
	}
	return words
}

// tooSmall names the vessels that cannot hold what is to go into them.
func (p Plan) tooSmall() []string {
	vessels := slices.Clone(p.planner.c.Vessels)
	for _, r := range p.planner.s.Replacements() {
		vessels = append(vessels, taken(r.Fact))
	}
	vessels = slices.DeleteFunc(vessels, func(v recipe.Vessel) bool { return v.Brim == 0 })
	if len(vessels) == 0 { // As in most workshops.
		return nil
	}
	return p.Uses().TooSmall(vessels)
}

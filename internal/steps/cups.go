package steps

import (
	"fmt"
	"strconv"
	"strings"

	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/scent"
	"bench/internal/work"
)

// The policy of this file: a scent that goes into portions waits in a cup for each,
// weighed out by what was planned. What goes in follows from what the portion really
// weighs, and never passes the limit in that portion.

// portionScents weighs out the cups, and what goes in of each. Both oils and bare
// batter are of the whole layer; what stays in the pot after the split is never
// scented.
func (p *planner) portionScents(r *pour, plannedOils, oils, bare float64) {
	oilsPerGram, plannedBare := 0.0, 0.0
	if bare > 0 && oils > 0 { // Facts that make no sense may leave nothing.
		oilsPerGram, plannedBare = oils/bare, bare*plannedOils/oils
	}
	all := 0.0
	for _, w := range r.shares {
		all += float64(w)
	}
	n, limits := len(r.recipe.Scents), p.stated()
	r.cups, r.scents = make([]work.Task, 0, n*p.c.Loaves), make([]work.Task, 0, n*p.c.Loaves)
	for loaf := range p.c.Loaves {
		share := float64(r.shares[loaf]) / all
		actual, open := bare*share, 0.0
		if len(r.portions) > 0 {
			actual, open = amount(r.portions[loaf]).Mass.Grams(), r.portions[loaf].Tolerance.Grams()
			share *= max(0, 1-p.c.LeftInVessel.Grams()/max(plannedBare, 1))
		}
		planned := plannedBare * share
		inCup, _ := scent.Amounts(limits, r.recipe, plannedOils*share, planned)
		wanted, most := scent.Amounts(limits, r.recipe, oilsPerGram*actual, actual)
		for i, s := range r.recipe.Scents {
			in := p.rack.Cup(r.at, loaf*n+i)
			cup := p.scentCup(r, loaf, s, in, inCup[i], scent.Tolerance(limits, s, inCup[i], planned))
			r.cups = append(r.cups, cup)
			t := p.fromCup(cup, unseenOf(cup, scent.Grams(r.recipe, s, oilsPerGram*open, open), most[i]), weighing{
				id: r.loafIDs[loaf] + "/" + s.Material, title: s.Material, material: s.Material, lot: cup.Lot, grams: wanted[i],
				tolerance: scent.Tolerance(limits, s, wanted[i], actual), vessel: p.cupOf(cup, in), load: cup.Target,
				hint: "Stir it in by hand and pour at once.",
			})
			r.scents = append(r.scents, ofGivenUp(t, r, loaf))
		}
	}
}

// scentCup weighs a scent out for one loaf.
func (p *planner) scentCup(r *pour, loaf int, s recipe.Scent, cup recipe.Vessel, grams, tolerance float64) work.Task {
	m, _ := p.c.Material(s.Material)
	return p.weigh(weighing{
		id: r.loafIDs[loaf] + "/" + s.Material + "/cup", title: s.Material + " for loaf " + p.words[loaf].no, material: s.Material, lot: m.Lot,
		hint: joined(p.words[loaf].cup, p.unlike(r)), grams: grams, tolerance: tolerance, vessel: cup,
	})
}

// unseenOf says whether what is in a cup is as good as what a portion wants: that is
// within what the cup's scale reads to and what the portion may be off, in grams of
// scent, and within the limit, of which half a reading is nobody's fault.
func unseenOf(cup work.Task, open, most float64) func(off quantity.Mass) bool {
	slack, have := cup.Reads+quantity.FromGrams(open), amount(cup).Mass
	within := (have - cup.Reads/2).Grams() <= most
	return func(off quantity.Mass) bool { return within && off.Abs() <= slack }
}

// ofGivenUp closes the scent of a loaf that gets no portion: nothing is stirred in.
func ofGivenUp(t work.Task, r *pour, loaf int) work.Task {
	if len(r.portions) > 0 && noPortion(&r.portions[loaf]) && !t.Done && t.Mass == 0 {
		t.Done, t.Skipped, t.Target = true, "loaf "+strconv.Itoa(loaf+1)+" has no portion", 0
	}
	return t
}

// cupsDiffer says what of its cup each portion wants that is not simply all of it, or "".
func (r pour) cupsDiffer() string {
	var words []string
	for i, t := range r.scents {
		cup := r.cups[i]
		if have := amount(cup).Mass; t.Skipped != "" && have > 0 {
			words = append(words, fmt.Sprintf("%s (%s) is not needed", cup.Vessel, have.Reading(cup.Reads)))
		} else if !t.Done && t.Target != have {
			words = append(words, sayOfCup(t, cup))
		}
	}
	if len(words) == 0 {
		return ""
	}
	return recipe.Capital(strings.Join(words, "; ")) + "."
}

// sayOfCup says how much of a cup goes in.
func sayOfCup(t, cup work.Task) string {
	have := amount(cup).Mass
	if off := t.Target - have; off > 0 {
		return fmt.Sprintf("all of %s (%s) and %s more", cup.Vessel, have.Reading(cup.Reads), off.Reading(cup.Reads))
	}
	return fmt.Sprintf("of %s: %s, %s stays", cup.Vessel, t.Target.Reading(cup.Reads), (have - t.Target).Reading(cup.Reads))
}

// fromCup is what goes in out of its cup: as it stands when nobody can tell that from
// what is wanted by now, or else a little more or a little less.
func (p *planner) fromCup(cup work.Task, same func(off quantity.Mass) bool, w weighing) work.Task {
	t := p.weigh(w)
	t.FromCup = true
	have := amount(cup).Mass
	t.SoFar = max(0, have-t.Mass)
	if !t.Done && same(t.Target-have) {
		t.Target = have
	}
	if t.Target == have {
		t.Hint = "All that is in the cup. " + w.hint
	} else {
		t.Hint = recipe.Capital(sayOfCup(t, cup)) + ". " + w.hint
	}
	return t
}

// cupOf is the cup in which something was weighed, or is to be by the plan.
func (p *planner) cupOf(cup work.Task, planned recipe.Vessel) recipe.Vessel {
	if !p.touched(cup.ID) {
		return planned
	}
	if name, tare := p.standsIn(cup.Vessel, cup.Tare, cup.Seq); name != planned.Name {
		return recipe.Vessel{Name: name, Tare: tare, Kind: recipe.Cup}
	}
	return planned
}

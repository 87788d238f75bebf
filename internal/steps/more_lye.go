package steps

import (
	"fmt"
	"math"
	"slices"

	"bench/internal/calc"
	"bench/internal/recipe"
	"bench/internal/work"
)

// The policy of this file: once a jug holds lye solution no water goes into it, since
// that is water onto alkali. More of both is made as a small solution of its own, the
// alkali into the water, and that is poured in; water alone goes into the batter.

// lyeMade numbers the fact since which a batter's jug holds lye solution: alkali that
// was dissolved, or stock that was weighed in.
func (p *planner) lyeMade(batter string) (seq int, made bool) {
	if d, ok := p.s.Done(DissolveID(batter)); ok {
		seq, made = d.Seq, true
	}
	b, _ := p.c.Recipe.Batter(batter)
	for _, a := range b.Alkali {
		m, _ := p.c.Material(a.Material)
		if w := p.s.Weighings(materialID(batter, a.Material)); m.Stock > 0 && len(w) > 0 && (!made || w[0].Seq < seq) {
			seq, made = w[0].Seq, true
		}
	}
	return seq, made
}

// afterMade says that a weighing begins, or began, once the lye solution was made.
func (p *planner) afterMade(batter, id string) bool {
	seq, made := p.lyeMade(batter)
	w := p.s.Weighings(id)
	return made && (len(w) == 0 || w[0].Seq > seq)
}

// intoBatter says that what was decided upon by a fact goes into the batter: the lye
// solution was in the oils by then, or is made and what is for its jug stays out of it.
func (p *planner) intoBatter(then sequel, id string, decided int) bool {
	if then.late == nil || p.combinedBefore(then.batter, decided) {
		return then.late != nil
	}
	w := p.s.Weighings(id)
	return then.cup != nil && p.afterMade(then.batter, id) && (len(w) == 0 || p.combinedBefore(then.batter, w[0].Seq))
}

// waterUp brings water that is in already up with the rest; once the lye solution is
// made it is the water of the small solution. Where it could not dissolve the alkali
// none is asked for, and that goes into the jug.
func (p *planner) waterUp(k *pot, wanted float64) {
	id, short := topUpID(k.water.ID), wanted-amount(k.water).Mass.Grams()
	asked := k.up && k.water.Done && !p.met(k.recipe.Name) && worthWeighing(short, k.water)
	if p.afterMade(k.recipe.Name, id) {
		dry, begun := p.moreDry(*k)
		_, least, _ := calc.DissolveShortfall(0, dry, 1e9) // No water is too much here; the least is asked for.
		asked = dry > 0 && short >= least && k.up && !begun && !p.met(k.recipe.Name)
	}
	if p.touched(id) || asked {
		dry, _ := p.moreDry(*k)
		need := max(0, short) + dry + sum(k.cup...).Grams()
		small, _ := p.smallJug(k.recipe.Name, need)
		k.water = p.topUp(k.water, sequel{batter: k.recipe.Name, cup: &k.cup, small: small}, short)
	}
	p.intoCup(k)
}

// roomToHeat is how much more than its lye a vessel holds in which that is made, so that
// it neither spits nor is stirred over (common practice, no source).
const roomToHeat = 2

// smallJug finds the vessel for so many grams of a small solution: one of the workshop
// that nothing else of the batch needs, or one that it lacks. One gram of lye takes less
// than one millilitre.
func (p *planner) smallJug(batter string, need float64) (v recipe.Vessel, ok bool) {
	return p.rack.Spare(func(v recipe.Vessel) bool {
		roomy := v.Brim == 0 || v.Brim.Millilitres() >= roomToHeat*need || p.takenInstead(v.Name)
		return roomy && !p.smallIn(v.Name, batter)
	})
}

// smallIn says that another batter's small solution is in a vessel.
func (p *planner) smallIn(vessel, but string) bool {
	return slices.ContainsFunc(p.c.Recipe.Batters, func(b recipe.Batter) bool {
		w := p.s.Weighings(topUpID(materialID(b.Name, recipe.Water)))
		return b.Name != but && len(w) > 0 && w[0].Fact.Vessel == vessel && !p.ticked(moreID(b.Name)) && !p.met(b.Name)
	})
}

// moreDry gives the grams of dry alkali that are brought up, and whether some of it
// was weighed.
func (p *planner) moreDry(k pot) (grams float64, begun bool) {
	for _, t := range k.early {
		if m, _ := p.c.Material(t.Material); m.Stock == 0 && isTopUp(k, t) {
			grams += amount(t).Mass.Grams()
			begun = begun || t.Done || t.Mass > 0
		}
	}
	return grams, begun
}

func isTopUp(k pot, t work.Task) bool {
	return slices.ContainsFunc(k.alkali, func(a work.Task) bool { return topUpID(a.ID) == t.ID })
}

// intoCup says how the small solution is made, where it has water of its own.
func (p *planner) intoCup(k *pot) {
	i := slices.IndexFunc(k.cup, func(t work.Task) bool { return t.Material == recipe.Water && t.Skipped == "" })
	if i < 0 {
		return
	}
	k.cup[0], k.cup[i] = k.cup[i], k.cup[0] // Water first.
	water := &k.cup[0]
	water.Title, water.Into = "Water for the extra alkali", ""
	water.Hint = "Gloves, goggles. Never into " + k.jug.Name + ": alkali goes into water, never water into alkali. " + p.sayHeatProof(*k, *water)
	for j := range k.cup[1:] {
		t := &k.cup[1+j]
		t.Into, t.Hint = water.Vessel, "Into the water of "+water.Vessel+", as was decided."
	}
	for j := range k.early {
		if t := &k.early[j]; isTopUp(*k, *t) {
			t.Into = water.Vessel
			t.Hint = "Gloves, goggles, sleeves. It goes into the water of " + water.Vessel + ", a little at a time; it heats."
		}
	}
}

// sayHeatProof says what vessel the small solution wants, and asks for one where the
// workshop has none.
func (p *planner) sayHeatProof(k pot, water work.Task) string {
	dry, _ := p.moreDry(k)
	need := sum(k.cup...).Grams() + dry
	if v, ok := p.smallJug(k.recipe.Name, need); !ok && v.Name == water.Vessel && !p.takenInstead(v.Name) {
		return fmt.Sprintf("None of the workshop is free and large enough: take a heat-proof one of %.0f ml or more, and tare it.", math.Ceil(roomToHeat*need))
	}
	return "Is " + water.Vessel + " clean and heat-proof?"
}

// moreLye is what goes into the jug after its lye solution was made: the small
// solution first, then what is dissolved in the jug.
func (p *planner) moreLye(k pot) []work.Task {
	name, tasks := k.recipe.Name, slices.Clone(k.cup)
	straight := k.straight()
	if len(k.cup) > 0 {
		for _, t := range k.early {
			if isTopUp(k, t) {
				tasks = append(tasks, t)
			}
		}
		tasks = append(tasks, p.stirClear(name, moreID(name), fmt.Sprintf("Dissolve the extra alkali in its water, then pour that into the %s", k.jug.Name),
			"Gloves, goggles, sleeves: it heats and steams. Alkali into water, a little at a time, stirred until clear; then pour slowly.")...)
	}
	if len(straight) == 0 {
		return tasks
	}
	return append(append(tasks, straight...), p.stirClear(name, straightID(name), fmt.Sprintf("Stir the extra alkali into the %s until clear", k.jug.Name),
		"Gloves, goggles, sleeves: it heats and steams. A little at a time; nothing lies on the bottom, no grain is left.")...)
}

// straight is the extra alkali that is dissolved in the jug itself.
func (k pot) straight() []work.Task {
	return slices.DeleteFunc(slices.Clone(k.early), func(t work.Task) bool { return len(k.cup) > 0 && isTopUp(k, t) })
}

// stirClear asks whether extra alkali has dissolved, before any of it meets oil.
func (p *planner) stirClear(batter, id, title, hint string) []work.Task {
	if p.met(batter) && !p.ticked(id) { // A batch of before did without.
		return nil
	}
	t := p.tick(id, title, hint)
	t.Signal = "Stir clear"
	return []work.Task{t}
}

// tooMuchMore finds the alkali that was added and is over by more than its tolerance.
// What is under is seen with the superfat.
func (p *planner) tooMuchMore(k pot) []Deviation {
	if p.traced(k.recipe.Name) {
		return nil
	}
	var list []Deviation
	for _, t := range k.early {
		if off, ok := p.off(k, t); ok && off > 0 {
			list = append(list, p.deviation(k, t, off))
		}
	}
	return list
}

// dry says that a weighed alkali still is in a cup by itself, and can come out again.
func (p *planner) dry(k pot, t work.Task) bool {
	if m, _ := p.c.Material(t.Material); m.Stock > 0 {
		return false
	}
	if slices.ContainsFunc(k.early, func(e work.Task) bool { return e.ID == t.ID }) {
		return !p.inJugYet(k, t)
	}
	others := slices.ContainsFunc(k.alkali, func(a work.Task) bool { return a.ID != t.ID && a.Mass > 0 })
	return !p.ticked(DissolveID(k.recipe.Name)) && !others
}

// inJugYet says that what is for a jug whose lye solution was made is in it.
func (p *planner) inJugYet(k pot, t work.Task) bool {
	name := k.recipe.Name
	if slices.ContainsFunc(k.straight(), func(s work.Task) bool { return s.ID == t.ID }) {
		return p.ticked(straightID(name)) || p.met(name)
	}
	return p.ticked(moreID(name)) || p.met(name)
}

// waterWanted gives the grams of water for all the alkali of the jug.
func (p *planner) waterWanted(k pot, oils float64) float64 {
	alkali, _ := k.inJug()
	water, _ := p.c.ExtraWater(k.recipe, alkali, gramsOf(k.additives), oils)
	return water
}

package steps

import (
	"fmt"

	"bench/internal/batch"
	"bench/internal/recipe"
	"bench/internal/rest"
	"bench/internal/work"
)

// The policy of this file: dry alkali that came out of its cup again has a cup of its
// own, which is given to nothing else, in this batch or another, until somebody says
// that it was put away. Wiping is not enough: what comes next may be water. That it does
// not go back into its container is common practice, no source; the safety data sheet
// comes first.

// kept is dry alkali that came out again, or is to.
type kept struct {
	id       string // id is that of the weighing out.
	material string
	cup      recipe.Vessel
}

// keepAlkali takes a cup from the rack for each, before any other is handed out.
func (p *planner) keepAlkali() []kept {
	if p.s.Undecided() {
		return nil
	}
	var list []kept
	for _, b := range p.c.Recipe.Batters {
		for _, a := range b.Alkali {
			for _, id := range p.alkaliWeighings(materialID(b.Name, a.Material)) {
				list = append(list, p.keepOf(id, a.Material)...)
			}
		}
	}
	return list
}

// alkaliWeighings are the weighing of an alkali, and those that bring more of it.
func (p *planner) alkaliWeighings(id string) []string {
	ids := []string{id, topUpID(id)}
	for i := range p.s.Decisions(id) {
		ids = append(ids, missingID(id, i))
	}
	return ids
}

// keepOf gives what came out again of one weighing, or is to.
func (p *planner) keepOf(id, material string) []kept {
	var list []kept
	for i, d := range p.s.Decisions(id) {
		k := kept{id: outID(id, i), material: material}
		if _, ok := p.wants(id, k.id, i); !ok || d.Fact.Way != batch.TakeOut {
			continue
		}
		in := ""
		if w := p.s.Weighings(k.id); len(w) > 0 {
			in, _ = p.standsIn(w[0].Fact.Vessel, w[0].Fact.Tare, w[0].Seq)
		}
		if k.cup.Name = in; !p.putAway(k) {
			k.cup = p.rack.Keep(in)
		}
		list = append(list, k)
	}
	return list
}

// outCup is the cup for what comes out again.
func (p *planner) outCup(id string) recipe.Vessel {
	for _, k := range p.kept {
		if k.id == id {
			return k.cup
		}
	}
	return p.rack.ColourCup(0)
}

// putAway says that somebody put it away, or ended the clean-up of a batch of before.
func (p *planner) putAway(k kept) bool {
	d, ok := p.s.Done(putAwayID(k.id))
	return ok && d.Skipped == "" || p.ticked(glovesID)
}

// putAwayTasks ask for every cup that what came out again is in.
func (p *planner) putAwayTasks(over bool) []work.Task {
	var tasks []work.Task
	for _, k := range p.kept {
		mass, _ := p.s.Mass(k.id)
		if mass <= 0 {
			continue
		}
		t := p.tick(putAwayID(k.id), fmt.Sprintf("Put the %s of %s in %s away", mass.Reading(p.s.Weighings(k.id)[0].Fact.Reads), k.material, k.cup.Name),
			"Gloves, goggles. Dry, lidded, labelled, out of reach; or away by its safety data sheet. Then rinse "+k.cup.Name+" with plenty of water; dry it.")
		t.Signal = "Hydroxide away"
		tasks = append(tasks, rest.PassedBy(t, over, "nothing was noted"))
	}
	return tasks
}

package steps

import (
	"fmt"
	"slices"

	"bench/internal/batch"
	"bench/internal/calc"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/work"
)

// followDecidedOils raises oils in proportion and adds what was to be added.
func (p *planner) followDecidedOils(k *pot, at int) {
	if p.s.Undecided() {
		return
	}
	factor := p.upBy(k.recipe)
	if k.up = factor > 0 || slices.ContainsFunc(k.oils, func(t work.Task) bool { return p.decided(t.ID, batch.InProportion) }); k.up {
		p.inProportion(k, at, factor)
	} else {
		p.toppedUp(k)
	}
	var base []work.Task
	base = append(base, k.oils...)
	for _, a := range k.recipe.Alkali {
		id := k.recipe.Name + "/" + a.Material
		base = append(base, work.Task{ID: id}, work.Task{ID: topUpID(id)})
		for i := range p.s.Decisions(id) {
			base = append(base, work.Task{ID: missingID(id, i)})
		}
	}
	for _, t := range base {
		p.addOils(k, t.ID)
	}
}

// addOils adds what was decided last, and what is in by an earlier decision.
func (p *planner) addOils(k *pot, task string) {
	for i, d := range p.s.Decisions(task) {
		id := forID(k.recipe.Name, d.Fact.Oil, task, i)
		if mass, in := p.wants(task, id, i); in && d.Fact.Way == batch.AddOil {
			p.addOil(k, id, d, mass)
		}
	}
}

func (p *planner) addOil(k *pot, id string, d batch.Decision, mass quantity.Mass) {
	use, ok := p.c.Oil(d.Fact.Oil)
	if !ok {
		return
	}
	t := p.moreOil(*k, id, use, mass.Grams())
	if p.combinedBefore(k.recipe.Name, d.Seq) {
		k.lateOils = append(k.lateOils, t)
		return
	}
	k.more = append(k.more, t)
}

func (p *planner) moreOil(k pot, id string, use recipe.OilUse, grams float64) work.Task {
	tolerance := calc.OilTolerance(p.koh(k), k.recipe.Superfat.Fraction(), use.SV.Nominal, ingredients(k.recipe))
	hint := "Into the " + k.recipe.Name + " pot, as was decided."
	if use.Hard {
		hint = fmt.Sprintf("Hard: melts by %.0f °C. Melt it, then into the %s pot, as was decided; stir until clear.", use.Melts, k.recipe.Name)
	}
	return p.weigh(weighing{
		id: id, title: use.Name + ", more", hint: hint, material: use.Name, lot: use.Lot,
		grams: grams, tolerance: ofMore(grams, tolerance),
		vessel: p.rack.ColourCup(0), into: k.vessel.Name,
	})
}

// koh is the alkali that the recipe's oils take, in grams of KOH.
func (p *planner) koh(k pot) float64 {
	n := 0.0
	for _, t := range k.oils {
		use, _ := p.c.Oil(p.oilKey(k.recipe, t))
		n += amount(t).Mass.Grams() * use.SV.Nominal / 1000
	}
	return n
}

// upBy is by how much a weight that is no oil asks for everything to be brought
// up, or zero.
func (p *planner) upBy(b recipe.Batter) float64 {
	ids := []string{b.Name + "/" + recipe.Water}
	for _, a := range b.Additives {
		ids = append(ids, b.Name+"/"+a.Material)
	}
	for _, at := range p.c.Recipe.LayersOf(b.Name) {
		for _, s := range p.c.Recipe.Layers[at].Scents {
			ids = append(ids, b.Name+"/"+p.c.Recipe.Layers[at].Name+"/"+s.Material)
		}
	}
	factor := 0.0
	for _, id := range ids {
		d, stands := p.decision(id)
		if mass, _ := p.s.Mass(id); stands && d.Fact.Way == batch.InProportion && mass > d.Fact.Off {
			factor = max(factor, mass.Grams()/(mass-d.Fact.Off).Grams())
		}
	}
	return factor
}

// inProportion asks for the oils that are still to come by the share of the one
// that is furthest over of those decided upon, or by factor, and for more of those
// that are in. What is in within its tolerance changes no factor.
func (p *planner) inProportion(k *pot, at int, factor float64) {
	planned := p.size.Oils[at].Grams()
	list := make([]calc.Weighing, len(k.oils))
	for i, t := range k.oils {
		since, _ := p.since(t.ID, len(p.s.Entries)+1)
		list[i] = calc.Weighing{Target: planned * p.share(k.recipe, t), Actual: (t.Mass + since).Grams(), In: p.decided(t.ID, batch.InProportion)}
	}
	if factor > 0 {
		list = append(list, calc.Weighing{Target: 1, Actual: factor, In: true})
	}
	factor, add := calc.InProportion(list)
	raised := p.oilTasks(k.recipe, k.vessel, planned*factor, p.potLoad(at))
	for i, t := range k.oils {
		switch {
		case !t.Done:
			k.oils[i] = raised[i]
		case t.Skipped == "":
			use, _ := p.c.Oil(p.oilKey(k.recipe, t))
			short := add[i]
			if !list[i].In {
				short -= list[i].Actual
			}
			id := topUpID(t.ID)
			if p.touched(id) || worthWeighing(short, t) && !p.met(k.recipe.Name) {
				k.more = append(k.more, p.moreOil(*k, id, use, max(0, short)))
			}
		}
	}
}

// toppedUp keeps what went in by a decision that another one took the place of.
func (p *planner) toppedUp(k *pot) {
	for _, t := range k.oils {
		if id := topUpID(t.ID); p.touched(id) {
			use, _ := p.c.Oil(p.oilKey(k.recipe, t))
			weighed, _ := p.s.Mass(id)
			k.more = append(k.more, p.moreOil(*k, id, use, weighed.Grams()))
		}
	}
}

func (p *planner) share(b recipe.Batter, t work.Task) float64 {
	for _, o := range b.Oils {
		if oilID(b, o.Oil) == t.ID {
			return o.Share.Fraction()
		}
	}
	return 0
}

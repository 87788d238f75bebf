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
	factor := p.upBy(k.recipe, p.size.Oils[at].Grams())
	if k.up = factor > 0 || slices.ContainsFunc(k.oils, func(t work.Task) bool { return p.decided(t.ID, batch.InProportion) }); k.up {
		p.inProportion(k, at, factor)
	} else {
		p.toppedUp(k)
	}
	var base []work.Task
	base = append(base, k.oils...)
	for _, a := range k.recipe.Alkali {
		id := materialID(k.recipe.Name, a.Material)
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
	tolerance := calc.OilTolerance(p.kohOfRecipe(k), k.recipe.Superfat.Fraction(), use.SV.Nominal, ingredients(k.recipe))
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

// kohOfRecipe is the alkali that the recipe's own oils take, in grams of KOH.
func (p *planner) kohOfRecipe(k pot) float64 {
	n := 0.0
	for _, t := range k.oils {
		use, _ := p.c.Oil(oilKey(k.recipe, t))
		n += amount(t).Mass.Grams() * use.SV.Nominal / 1000
	}
	return n
}

// upBy is by how much the weights that are no oil ask for everything to be brought up over
// what was planned, or zero. Each was asked for by the oils of its time, which may have been
// brought up, or have been over, before.
func (p *planner) upBy(b recipe.Batter, planned float64) float64 {
	type up struct {
		batch.Decision
		id   string
		over float64 // over is what was weighed by what was asked.
	}
	var list []up
	for _, id := range p.notOils(b) {
		d, stands := p.decision(id)
		if mass, _ := p.s.Mass(id); stands && d.Fact.Way == batch.InProportion && mass > d.Fact.Off {
			list = append(list, up{d, id, mass.Grams() / (mass - d.Fact.Off).Grams()})
		}
	}
	slices.SortFunc(list, func(x, y up) int { return x.Seq - y.Seq })
	factor := 0.0
	for i, u := range list {
		weighed, before := p.s.Weighings(u.id), 0.0
		at := weighed[len(weighed)-1].Seq
		if i > 0 && list[i-1].Seq < at {
			before = factor
		}
		factor = max(factor, u.over*p.oilsThen(b, planned, before, at)/planned)
	}
	return factor
}

// notOils are the weighings of a batter that are no oil and can bring everything up.
func (p *planner) notOils(b recipe.Batter) []string {
	ids := []string{materialID(b.Name, recipe.Water)}
	for _, a := range b.Additives {
		ids = append(ids, b.Name+"/"+a.Material)
	}
	for _, at := range p.c.Recipe.LayersOf(b.Name) {
		for _, s := range p.c.Recipe.Layers[at].Scents {
			ids = append(ids, b.Name+"/"+p.c.Recipe.Layers[at].Name+"/"+s.Material)
		}
	}
	return ids
}

// oilsThen gives the grams of oil that a batter was to have by the facts before one: what
// was weighed, or planned, and no less than planned times the factor by then.
func (p *planner) oilsThen(b recipe.Batter, planned, factor float64, seq int) float64 {
	grams := make([]float64, len(b.Oils))
	for i, o := range b.Oils {
		id, target := materialID(b.Name, o.Oil), planned*o.Share.Fraction()
		grams[i] = target
		if p.weighedBefore(id, seq) > 0 {
			decided, _ := p.since(id, seq)
			grams[i] = (p.weighedBefore(id, seq) + decided).Grams()
		}
		if d, stands := p.decision(id); stands && d.Seq < seq && d.Fact.Way == batch.InProportion {
			factor = max(factor, grams[i]/target)
		}
	}
	all := 0.0
	for i, o := range b.Oils {
		all += max(grams[i], factor*planned*o.Share.Fraction())
	}
	return all
}

// inProportion asks for the oils that are still to come by the share of the one
// that is furthest over of those decided upon, or by factor, and for more of those
// that are in. What is in within its tolerance changes no factor.
func (p *planner) inProportion(k *pot, at int, factor float64) {
	planned := p.size.Oils[at].Grams()
	list := make([]calc.Weighing, len(k.oils))
	for i, t := range k.oils {
		since, _ := p.since(t.ID, len(p.s.Entries)+1)
		list[i] = calc.Weighing{Target: planned * shareOf(k.recipe, t), Actual: (t.Mass + since).Grams(), In: p.decided(t.ID, batch.InProportion)}
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
			k.oils[i].Tolerance, k.oils[i].Reckoned = raised[i].Tolerance, raised[i].Reckoned // As it was while it was weighed.
			use, _ := p.c.Oil(oilKey(k.recipe, t))
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
			use, _ := p.c.Oil(oilKey(k.recipe, t))
			weighed, _ := p.s.Mass(id)
			k.more = append(k.more, p.moreOil(*k, id, use, weighed.Grams()))
		}
	}
}

func shareOf(b recipe.Batter, t work.Task) float64 {
	for _, o := range b.Oils {
		if materialID(b.Name, o.Oil) == t.ID {
			return o.Share.Fraction()
		}
	}
	return 0
}

package steps

import (
	"fmt"
	"math"
	"reflect"
	"slices"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/timer"
	"bench/internal/ways"
	"bench/internal/work"
)

// WayOn is one way to go on, with what comes of it.
type WayOn struct {
	ways.Way
	Outcome Outcome
	Look    *AfterLook // Look is set where it is no decision, but an answer to a look into a vessel.
}

// Keeps gives the fact that takes the way, or nil where more is to be said first.
func (w WayOn) Keeps() batch.Fact {
	if w.Look != nil {
		return w.Look.Fact
	}
	return w.Fact
}

// Ways gives the ways to go on that exist now. Each is tried out: its outcome is
// that of the plan as it would be. So they are worked out when they are asked
// for, and not with every plan. A way that leaves the superfat too low is there all the
// same if that is for other weights that are off, and can be decided upon next.
func (p Plan) Ways(d Deviation) []WayOn {
	if p.planner == nil {
		return nil
	}
	if d.Look > 0 {
		return p.planner.afterLook(p, d)
	}
	if s, i, ok := p.planner.portionOf(d.Task); ok {
		return p.planner.portionWays(p, d, s, i)
	}
	_, at := p.planner.c.Recipe.Batter(d.Batter)
	if at < 0 || at >= len(p.planner.pots) {
		return nil
	}
	return p.planner.ways(p, p.planner.pots[at], d)
}

func (p *planner) ways(plan Plan, k pot, d Deviation) []WayOn {
	t, off := d.task, d.Off
	var list []WayOn
	weight := p.weight(k, t, off)
	mended, others := p.othersMended(d)
	for _, way := range ways.Of(p.stands(k, t), weight) {
		w := WayOn{Way: way}
		w.Fact.Task, w.Fact.Off, w.Fact.Within, w.Fact.ByEye = t.ID, off, t.Tolerance, t.ByEye
		after, _ := planOf(p.s.With(w.Fact, timer.Moment{}))
		w.Outcome = outcome(plan, after, k.recipe.Name)
		low := k.tooLow(weight.Kind, w.Outcome.Superfat, plan)
		if others {
			as, _ := planOf(mended.With(w.Fact, timer.Moment{}))
			superfat := outcome(plan, as, k.recipe.Name).Superfat
			w.Outcome.Mended, low = &superfat.Percent, low && k.tooLow(weight.Kind, superfat, plan)
		}
		if !low && fits(plan, after) && !k.forOthers(weight, w) {
			list = append(list, w)
		}
	}
	return oneDefault(k.worthTaking(list))
}

// oneDefault makes the first way the default where none is.
func oneDefault(list []WayOn) []WayOn {
	if len(list) > 0 && !slices.ContainsFunc(list, func(w WayOn) bool { return w.Default }) {
		list[0].Default = true
	}
	return list
}

// worthTaking leaves out bringing everything up, or down, where that comes to what carrying
// on does, or takes the superfat further from what is asked: what is too little to be
// weighed is not brought up.
func (k pot) worthTaking(list []WayOn) []WayOn {
	i := slices.IndexFunc(list, func(w WayOn) bool { return w.Fact.Way == batch.CarryOn })
	if i < 0 {
		return list
	}
	on := list[i].Outcome
	far := func(o Outcome) float64 { return math.Abs(o.Superfat.Percent - 100*k.recipe.Superfat.Fraction()) }
	return slices.DeleteFunc(list, func(w WayOn) bool {
		return w.Fact.Way == batch.InProportion && (reflect.DeepEqual(w.Outcome, on) || far(w.Outcome) > far(on)+lowerBy)
	})
}

// forOthers says that a way makes up, with another oil, for other weights as well, which
// have ways of their own: with those mended too there would be too much.
func (k pot) forOthers(weight ways.Weight, w WayOn) bool {
	another := weight.Kind == ways.Oil && weight.Off < 0 && w.Fact.Way == batch.AddOil && w.Fact.Oil != weight.OilKey
	return another && w.Outcome.Mended != nil && *w.Outcome.Mended > 100*k.recipe.Superfat.Fraction()+lowerBy
}

// othersMended gives the facts as they would be if every other weight of the batter that
// is off, and not decided upon, were as asked; false where there is none.
func (p *planner) othersMended(d Deviation) (s batch.State, some bool) {
	s = p.s
	for _, other := range p.deviations() {
		if _, _, portion := p.portionOf(other.Task); portion || other.Batter != d.Batter || other.Task == d.Task {
			continue
		}
		f := batch.Fact(batch.Withdrawn{Seq: other.task.Seq}) // It was left out.
		if weighed := p.s.Weighings(other.Task); len(weighed) > 0 {
			last := weighed[len(weighed)-1]
			with := last.Fact
			with.Mass, with.How = with.Mass-other.Off, batch.Typed
			f = batch.Corrected{Seq: last.Seq, With: with}
		}
		s, some = s.With(f, timer.Moment{}), true
	}
	return s, some
}

// asks names what is to be weighed after a decision and was not before it: what
// was weighed already and is topped up or taken out again.
func asks(before, after Plan) []string {
	var list []string
	for _, st := range after.Stages {
		for _, t := range st.Tasks {
			if was, _, known := before.Task(t.ID); t.Do == work.Weigh && !t.Done && (!known || was.Done) {
				list = append(list, fmt.Sprintf("%s %s g", t.Title, t.Remaining().At(t.Reads)))
			}
		}
	}
	return list
}

// weight says what kind of weight was off.
func (p *planner) weight(k pot, t work.Task, off quantity.Mass) ways.Weight {
	w := ways.Weight{Kind: ways.Scent, Material: t.Material, Off: off, Reads: t.Reads, Alone: p.alone(k, t)}
	if t.ByEye {
		w.ByEye = quantity.FromGrams(amount(t).Mass.Grams() * byEyeSpread).RoundTo(t.Reads)
	}
	switch {
	case k.isOil(t):
		w.Kind, w.OilKey = ways.Oil, oilKey(k.recipe, t)
	case k.isAlkali(t):
		w.Kind = ways.Alkali
		if !slices.ContainsFunc(k.early, func(e work.Task) bool { return e.ID == t.ID }) {
			w.Other = otherAlkali(k, t)
		}
	case t.ID == k.water.ID:
		w.Kind = ways.Water
	case slices.ContainsFunc(k.additives, func(a work.Task) bool { return a.ID == t.ID }):
		w.Kind = ways.Additive
	default:
		w.Over = p.overFor(t.ID)
	}
	return w
}

// otherAlkali names the alkali of a batter of which nothing is weighed yet, or "".
func otherAlkali(k pot, t work.Task) string {
	for _, a := range k.alkali {
		if a.ID != t.ID && !a.Done && a.Mass == 0 {
			return a.Material
		}
	}
	return ""
}

// alone says that what was weighed is not mixed with anything yet: water before
// anything is in it, and what waits in its own cup.
func (p *planner) alone(k pot, t work.Task) bool {
	if k.isAlkali(t) {
		return p.dry(k, t)
	}
	if t.ID == k.water.ID {
		for i, a := range k.recipe.Additives {
			if a.In == recipe.InLyeWater && k.additives[i].Mass > 0 {
				return false
			}
		}
		_, stock := p.lyeSolution(k).Stock()
		return !p.ticked(DissolveID(k.recipe.Name)) && (!stock || k.alkali[0].Mass == 0)
	}
	for i, a := range k.recipe.Additives {
		if k.additives[i].ID == t.ID {
			return a.In == recipe.InLyeWater && !p.ticked(DissolveID(k.recipe.Name)) || a.In == recipe.InOils && !p.ticked(MeetID(k.recipe.Name))
		}
	}
	for _, r := range p.pours {
		if slices.ContainsFunc(r.scents, func(s work.Task) bool { return s.ID == t.ID }) {
			return r.layer.Place == recipe.InPot && !p.ticked(ScentInID(r.recipe.Batter, r.recipe.Name))
		}
	}
	return false
}

// sharedOut says that some of what a weighing was stirred into is in another vessel by
// now: of a scent its layer, of anything else the batter.
func (p *planner) sharedOut(k pot, t work.Task) bool {
	scent := p.weight(k, t, 0).Kind == ways.Scent
	if slices.ContainsFunc(k.parts, weighedAny) && !scent {
		return true
	}
	for _, r := range p.pours {
		of := r.recipe.Batter == k.recipe.Name
		if scent {
			of = slices.ContainsFunc(r.scents, func(s work.Task) bool { return s.ID == t.ID })
		}
		if of && slices.ContainsFunc(r.portions, weighedAny) {
			return true
		}
	}
	return false
}

// stands says how far a batter is.
func (p *planner) stands(k pot, t work.Task) ways.Pot {
	return ways.Pot{
		Control: p.c, Batter: k.recipe, Account: p.account(k), Finest: p.rack.Finest().Reads, Strength: p.concentration(k),
		Met:        p.met(k.recipe.Name),
		Emulsified: p.reached(k.recipe.Name, recipe.Emulsion), Shared: p.sharedOut(k, t),
		OilsIn:   slices.ContainsFunc(k.oils, func(o work.Task) bool { return o.Mass > 0 }),
		AlkaliIn: slices.ContainsFunc(k.alkali, func(a work.Task) bool { return a.Done }),
		OthersIn: slices.ContainsFunc(k.oils, func(o work.Task) bool { return o.ID != t.ID && (o.Done || o.Mass > 0) }),
	}
}

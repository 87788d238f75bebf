package steps

import (
	"errors"
	"fmt"
	"slices"

	"bench/internal/batch"
	"bench/internal/calc"
	"bench/internal/quantity"
	"bench/internal/recipe"
)

// Deviation is a weight that was off by more than its tolerance. It blocks
// nothing.
type Deviation struct {
	Task   string
	Batter string
	Off    quantity.Mass // Off is below zero for too little.
	Words  string

	task Task
}

// WayOn is one way to go on, with what comes of it.
type WayOn struct {
	Fact    batch.Decided // Fact takes it.
	Title   string
	Outcome Outcome
	Until   string // Until says how long it is there to be taken.
	Default bool
}

// Outcome is what a batch comes to when all else is weighed as asked.
type Outcome struct {
	Superfat calc.Superfat // Superfat is of the batter that was off.
	Rise     quantity.Length
	Scent    float64 // Scent is the most of it in any fresh layer, in percent.
}

// lowerBy is how far below the stated superfat an outcome may lie, in percent:
// what weights within their tolerances amount to.
const lowerBy = 0.25

// deviations finds the weights that were off and are not decided yet.
func (p *planner) deviations() []Deviation {
	if p.s.Closed() {
		return nil
	}
	var list []Deviation
	for _, k := range p.pots {
		if p.traced(k.recipe.Name) {
			continue
		}
		for _, t := range slices.Concat(k.oils, k.alkali, []Task{k.water}, k.additives) {
			if off, ok := p.off(t); ok {
				list = append(list, p.deviation(k, t, off))
			}
		}
	}
	for _, r := range p.pours {
		_, bi := p.c.Recipe.Batter(r.recipe.Batter)
		if len(r.scents) == 0 || r.scents[0].FromCup || p.pouredAny(r) {
			continue
		}
		for _, t := range r.scents {
			if off, ok := p.off(t); ok {
				list = append(list, p.deviation(p.pots[bi], t, off))
			}
		}
	}
	return list
}

// off says that a weighing was off and that nobody has decided upon it. What
// was decided upon another weight, before it was corrected, does not count.
func (p *planner) off(t Task) (quantity.Mass, bool) {
	off := t.Mass - t.Target
	if !t.Done || t.ByEye || t.Target <= 0 || t.Tolerance <= 0 || abs(off) <= t.Tolerance {
		return 0, false
	}
	d, decided := p.s.Decision(t.ID)
	return off, !decided || abs(d.Fact.Off-off) > t.Tolerance
}

// traced says that a batter is past light trace: it takes nothing in any more.
func (p *planner) traced(batter string) bool {
	return p.reached(batter, recipe.Light) || p.reached(batter, p.wantedTrace(batter))
}

func (p *planner) reached(batter string, t recipe.Trace) bool {
	_, ok := p.s.Done(traceID(batter, t))
	return ok
}

func (p *planner) pouredAny(r pour) bool {
	for loaf := range p.c.Loaves {
		if _, ok := p.s.Done(pourID(r.recipe, loaf)); ok {
			return true
		}
	}
	return false
}

func (p *planner) deviation(k pot, t Task, off quantity.Mass) Deviation {
	d := Deviation{Task: t.ID, Batter: k.recipe.Name, Off: off, task: t}
	word := "over"
	if off < 0 {
		word = "under"
	}
	d.Words = fmt.Sprintf("%s: %s %s g %s (asked %s)", k.recipe.Name, t.Material, abs(off).At(t.Reads), word, t.Target.At(t.Reads))
	if _, wet := p.s.Done(dissolveID(k.recipe.Name)); p.isAlkali(k, t) && off > 0 && !wet {
		d.Words += ". While it is dry it can come out of the cup again: take it out and correct the weight (u)."
	}
	return d
}

// Ways gives the ways to go on that exist now. Each is tried out: its outcome is
// that of the plan as it would be. So they are worked out when they are asked
// for, and not with every plan.
func (p Plan) Ways(d Deviation) []WayOn {
	if p.planner == nil {
		return nil
	}
	_, at := p.planner.c.Recipe.Batter(d.Batter)
	if at < 0 || at >= len(p.planner.pots) {
		return nil
	}
	return p.planner.ways(p, p.planner.pots[at], d)
}

func (p *planner) ways(plan Plan, k pot, d Deviation) []WayOn {
	t, off := d.task, d.Off
	var ways []WayOn
	moves := p.isOil(k, t) || p.isAlkali(k, t)
	for _, w := range p.candidates(k, t, off) {
		w.Fact.Task, w.Fact.Off = t.ID, off
		after, _ := planOf(p.s.Apply(batch.Entry{Seq: len(p.s.Entries) + 1, Fact: w.Fact}))
		w.Outcome = outcome(plan, after, k.recipe.Name)
		tooLow := moves && w.Outcome.Superfat.Percent < 100*k.recipe.Superfat.Fraction()-lowerBy
		if !tooLow && fits(plan, after) {
			ways = append(ways, w)
		}
	}
	if len(ways) > 0 && !slices.ContainsFunc(ways, func(w WayOn) bool { return w.Default }) {
		ways[0].Default = true
	}
	return ways
}

// fits says that a way overfills nothing: no mould and no scale that was not
// too small before.
func fits(before, after Plan) bool {
	top := len(after.Layers) - 1
	rises := after.Layers[top].Surface > before.Layers[top].Surface
	return len(after.Warnings) <= len(before.Warnings) && (!rises || after.Layers[top].Surface <= after.Mould.Height)
}

func outcome(before, after Plan, batter string) Outcome {
	top := len(after.Layers) - 1
	o := Outcome{Rise: after.Layers[top].Surface - before.Layers[top].Surface}
	for _, b := range after.Batters {
		if b.Name == batter {
			o.Superfat = b.Superfat
		}
	}
	for _, l := range after.Layers {
		scent := quantity.Mass(0)
		for _, s := range l.Scents {
			scent += s.Mass
		}
		if l.Batter == batter && l.Mass > 0 {
			o.Scent = max(o.Scent, 100*scent.Grams()/l.Mass.Grams())
		}
	}
	return o
}

func (p *planner) isOil(k pot, t Task) bool {
	return slices.ContainsFunc(k.oils, func(o Task) bool { return o.ID == t.ID })
}

func (p *planner) isAlkali(k pot, t Task) bool {
	return slices.ContainsFunc(k.alkali, func(a Task) bool { return a.ID == t.ID })
}

// candidates are the ways that are physically there now: nothing that is mixed
// comes out again, and what a way adds must still be taken in.
func (p *planner) candidates(k pot, t Task, off quantity.Mass) []WayOn {
	met := p.combinedBefore(k.recipe.Name, len(p.s.Entries)+1)
	ways := []WayOn{{Fact: batch.Decided{Way: batch.CarryOn}, Title: "Carry on: what is still to come follows", Until: "there at any time"}}
	switch {
	case p.isOil(k, t) && off < 0:
		ways = append(ways, p.missingOil(k, t, off, met))
		if !met && p.othersFollow(k, t) {
			ways = append(ways, proportion("Bring the others down in proportion"))
		}
	case p.isOil(k, t):
		if !met {
			ways = append(ways, proportion("Bring the other oils up in proportion"))
		}
		if w, ok := p.restore(k); ok {
			ways = append(ways, w)
		}
	case p.isAlkali(k, t) && off < 0:
		ways = append(ways, p.missingAlkali(k, t, met)...)
	case p.isAlkali(k, t):
		if !met {
			ways = append(ways, WayOn{
				Fact: batch.Decided{Way: batch.PourPart}, Default: true,
				Title: "Pour only part of the lye solution; label and keep the rest", Until: "until it is poured",
			})
		}
		if w, ok := p.restore(k); ok {
			w.Default = met
			ways = append(ways, w)
		}
	}
	return ways
}

func proportion(title string) WayOn {
	return WayOn{Fact: batch.Decided{Way: batch.InProportion}, Title: title, Until: "until the lye solution meets the oils"}
}

// othersFollow says that no other oil is in yet, so that all can follow down.
func (p *planner) othersFollow(k pot, t Task) bool {
	return !slices.ContainsFunc(k.oils, func(o Task) bool { return o.ID != t.ID && (o.Done || o.Mass > 0) })
}

// missingOil adds the rest of an oil that came out short.
func (p *planner) missingOil(k pot, t Task, off quantity.Mass, met bool) WayOn {
	return WayOn{
		Fact:    batch.Decided{Way: batch.AddOil, Oil: p.oilKey(k.recipe, t), Mass: -off},
		Title:   fmt.Sprintf("Add the %s g of %s that are missing", (-off).At(t.Reads), t.Material),
		Until:   untilTrace,
		Default: met || slices.ContainsFunc(k.alkali, func(a Task) bool { return a.Done }),
	}
}

const untilTrace = "until light trace"

// restore adds so much of the liquid oil with the greatest share that the
// superfat is as stated again; false when it is no lower.
func (p *planner) restore(k pot) (WayOn, bool) {
	use, ok := p.restoring(k.recipe)
	if !ok {
		return WayOn{}, false
	}
	a := p.account(k)
	grams, err := calc.RestoringOil(a.oils, a.alkalis, a.acids, calc.OilAmount{Name: use.Name, SV: use.SV}, k.recipe.Superfat.Fraction())
	reads := p.scales[0].Reads
	mass := (quantity.FromGrams(grams) + reads - 1).FloorTo(reads)
	if err != nil || mass <= 0 {
		return WayOn{}, false
	}
	return WayOn{
		Fact:  batch.Decided{Way: batch.AddOil, Oil: use.Key, Mass: mass},
		Title: fmt.Sprintf("Add %s g of %s", mass.At(max(reads, quantity.Gram/10)), use.Name), Until: untilTrace,
	}, true
}

// restoring is the oil that is added: liquid, so that it needs no melting, and
// one that the recipe has most of.
func (p *planner) restoring(b recipe.Batter) (best recipe.OilUse, ok bool) {
	most := quantity.Ratio(0)
	for _, wantLiquid := range []bool{true, false} {
		for _, o := range b.Oils {
			use, known := p.c.Oil(o.Oil)
			if known && (!wantLiquid || !use.Hard) && o.Share > most && use.SV.Nominal > 0 {
				best, most, ok = use, o.Share, true
			}
		}
		if ok {
			return best, true
		}
	}
	return best, false
}

// missingAlkali dissolves what is missing: in the jug before the lye solution
// is poured, and after that by itself, up to emulsion.
func (p *planner) missingAlkali(k pot, t Task, met bool) []WayOn {
	if p.reached(k.recipe.Name, recipe.Emulsion) {
		return nil
	}
	m, _ := p.c.Material(t.Material)
	short := k.koh*(1-k.recipe.Superfat.Fraction()) + k.acids - asKOH(p.account(k).alkalis)
	mass := quantity.FromGrams(short * recipe.MolarMass(t.Material) / calc.MolarMassKOH / m.PureFraction()).FloorTo(t.Reads)
	if mass <= 0 {
		return nil
	}
	title := fmt.Sprintf("Dissolve the %s g that are missing in the jug", mass.At(t.Reads))
	if met {
		title = fmt.Sprintf("Dissolve the %s g that are missing in a little water, and stir them in", mass.At(t.Reads))
	}
	return []WayOn{{
		Fact: batch.Decided{Way: batch.Shortfall, Mass: mass}, Title: title, Until: "until emulsion", Default: !met,
	}}
}

func (p Plan) allowsDecision(f batch.Decided) error {
	for _, d := range p.Deviations {
		if d.Task != f.Task {
			continue
		}
		for _, w := range p.Ways(d) {
			if w.Fact == f {
				return nil
			}
		}
		return errors.New("this way is not there any more: look at the ways again")
	}
	return errors.New("nothing is to be decided about this weight any more")
}

func (p Plan) sayDecided(f batch.Decided) string {
	words := map[batch.Way]string{
		batch.CarryOn: "carry on, the rest follows", batch.InProportion: "the other oils in proportion",
		batch.PourPart: "pour part of the lye solution, keep the rest", batch.Shortfall: "dissolve what is missing",
		batch.AddOil: "add oil",
	}[f.Way]
	if f.Mass > 0 {
		words += fmt.Sprintf(" (%s g)", f.Mass.At(quantity.Gram/100))
	}
	return fmt.Sprintf("%s%s: %s", p.about(f.Task), p.title(f.Task), words)
}

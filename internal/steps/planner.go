package steps

import (
	"cmp"
	"slices"

	"bench/internal/batch"
	"bench/internal/calc"
	"bench/internal/fill"
	"bench/internal/next"
	"bench/internal/quantity"
	"bench/internal/rack"
	"bench/internal/recipe"
	"bench/internal/rest"
	"bench/internal/timer"
	"bench/internal/work"
)

// planner works out one plan. It lives for one call of Of.
type planner struct {
	c     recipe.Control
	s     batch.State
	size  fill.Size
	rack  rack.Rack
	pots  []pot
	pours []pour

	weights  []int64         // weights are in what proportion the loaves share a layer.
	kept     []kept          // kept is dry alkali that came out again.
	out      []fill.Out      // out are the embeds that each loaf goes without.
	got      []loafGot       // got is what each loaf gets of the layers that are worked out.
	words    []loafWords     // words are what every layer says of each loaf.
	toppings []work.Task     // toppings are weighed loaf by loaf.
	asPoured []quantity.Mass // asPoured is what was poured into each mould, with its embeds.
	loaves   []quantity.Mass // loaves are what each mould holds: as poured, or as it was weighed.
	after    rest.Rest       // after is what follows the pour.
	emptied  map[string]bool // emptied says of what waits in a cup of its own whether that is empty again.
	tooFine  []string        // tooFine names the weighings that no scale is fine enough for.

	followers map[string][]work.Task // followers stand behind the weighing of that id.
}

// Of gives the plan of a batch. For a look at a plan before there is a batch,
// pass a State that holds nothing but its Control.
func Of(s batch.State) Plan {
	plan, p := planOf(s)
	looks := p.looksOff()
	plan.Holds = p.holds(plan.Batters, looks)
	if !s.Ended() { // Nothing could be said about them any more.
		plan.Deviations = append(slices.Clone(looks), p.deviations()...)
	}
	plan.Unread = p.unread(plan.Holds)
	plan.mayNotMeet()
	return plan
}

// planOf gives the plan without the ways to go on, which are tried out on it.
func planOf(s batch.State) (Plan, *planner) {
	p := &planner{c: s.Control, s: s, rack: rack.Of(s.Control)}
	if !whole(p.c) {
		return Plan{Recipe: p.c.Recipe.Name}, &planner{}
	}
	p.size, p.weights = fill.Of(p.c), p.c.LoafWeights()
	p.fitVessels()
	for _, r := range s.Replacements() {
		p.rack.Replace(r.Fact.Vessel, taken(r.Fact))
	}
	p.kept, p.words = p.keepAlkali(), p.sayLoaves()
	p.out, p.got = p.leftOut(), p.gotNothing()
	p.pots = make([]pot, len(p.c.Recipe.Batters))
	for i := range p.pots {
		p.pots[i] = p.fillPot(i)
	}
	p.pours = make([]pour, len(p.c.Recipe.Layers))
	for i := range p.pours {
		p.pours[i] = p.fillLayer(i)
		p.enter(&p.pours[i])
	}
	p.followLoaves()
	p.asPoured = p.moulded()
	p.loaves = p.unmoulded()
	p.after = p.afterPour()
	p.toppings, p.tooFine = p.topTasks(), p.coarse()
	return p.plan(), p
}

// plan puts together what was worked out.
func (p *planner) plan() Plan {
	plan := Plan{
		Recipe: p.c.Recipe.Name, Loaves: p.c.Loaves, Mould: p.c.Mould,
		Warnings: slices.Concat(p.c.Warnings, p.tooFine, p.tooHeavy()), Closed: p.s.Ended(),
		Batters: make([]Batter, 0, len(p.pots)), Layers: make([]Layer, 0, len(p.pours)), planner: p,
	}
	for _, k := range p.pots {
		b := p.batter(k)
		plan.Batters = append(plan.Batters, b)
		for _, o := range b.Oils {
			plan.Oils += o.Mass
		}
	}
	for _, l := range p.pours {
		plan.Layers = append(plan.Layers, l.layer)
	}
	p.after.Since = p.openedSince(plan.Batters)
	plan.Balance = p.balance(plan.Batters)
	plan.Stages = p.stages(plan.Balance)
	p.emptied = p.areEmptied()
	p.soFar(plan.Stages)
	if !plan.Closed { // Nothing could be said about them any more.
		plan.Timers = p.timers(plan.Stages)
	}
	p.waitForVessels(plan.Stages)
	next.Settle(plan.Stages, p.s)
	p.wipeOut(plan.Stages)
	plan.Warnings = append(plan.Warnings, plan.tooSmall()...)
	return plan
}

// With gives the plan as it would be with one fact more, without the ways to go on.
func (p Plan) With(f batch.Fact, now timer.Moment) Plan {
	after, _ := planOf(p.State().With(f, now))
	return after
}

// State gives the facts that the plan follows from.
func (p Plan) State() batch.State {
	if p.planner == nil {
		return batch.State{}
	}
	return p.planner.s
}

// afterPour is what the rest of the batch needs of the pots and pours.
func (p *planner) afterPour() rest.Rest {
	poured, _ := p.lastPour(p.pours[len(p.pours)-1])
	return rest.Rest{Control: p.c, State: p.s, Loaves: p.loaves, Scale: p.rack.Home(recipe.Vessel{}, slices.Max(p.loaves)), Poured: poured}
}

// whole says that a control recipe can be planned. One that was resolved always
// can; a state without its first fact holds none.
func whole(c recipe.Control) bool {
	for _, l := range c.Recipe.Layers {
		if b, at := c.Recipe.Batter(l.Batter); at < 0 || len(b.Oils) == 0 {
			return false
		}
	}
	return len(c.Scales) > 0 && len(c.Recipe.Layers) > 0 && c.Loaves > 0 && c.Mould.Capacity() > 0
}

// weighing is a weighing before it is known on which scale.
type weighing struct {
	id        string
	title     string
	hint      string
	material  string
	lot       string
	grams     float64 // grams is the exact target.
	tolerance float64 // tolerance is in grams; zero is none. The scale is chosen by it.
	pellet    float64 // pellet is the least that it is held to, in grams, however fine the scale.
	mustType  bool
	vessel    recipe.Vessel
	load      quantity.Mass
	before    quantity.Mass // before is planned to be in the vessel already; with load it decides the scale.
	into      string
}

// weigh makes the task of a weighing: the scale is chosen, the target is
// rounded to what it reads to, and what was weighed already is filled in.
func (p *planner) weigh(w weighing) work.Task {
	target := max(0, quantity.FromGrams(w.grams)) // Facts that make no sense may ask for less than nothing.
	tolerance := quantity.FromGrams(w.tolerance)
	at := p.rack.Station(w.vessel, max(w.load, target), w.before, target, tolerance)
	t := work.Task{
		ID: w.id, Do: work.Weigh, Title: w.title, Hint: w.hint, Material: w.material, Lot: w.lot,
		Target: target.RoundTo(at.Scale.Reads), Tolerance: tolerance, Reckoned: work.Reckoned{Within: tolerance}, MustType: w.mustType,
		Scale: at.Scale.Name, Reads: at.Scale.Reads, Max: at.Scale.Max, Parts: at.Parts,
		Vessel: at.Vessel.Name, Tare: at.Vessel.Tare, TareKnown: at.Vessel.Tare > 0,
		Into: cmp.Or(w.into, at.Into),
	}
	if tolerance > 0 {
		t.Tolerance = max(tolerance, quantity.FromGrams(w.pellet), at.Scale.Reads) // A net weight is two readings, each open by half of it; see calc.Weighed.
	}
	t = p.fill(t)
	if v := at.Vessel; !t.Done && t.Target > cupHolds && v.Kind == recipe.Cup && v.Brim == 0 && v.Name != p.rack.AlkaliCup().Name && !p.takenInstead(v.Name) {
		t.Hint = joined("More than a cup holds: take a jug, and say which (i).", t.Hint)
	}
	return t
}

// cupHolds is the most that is weighed into a cup whose size is not known (common
// practice, no source).
const cupHolds = 250 * quantity.Gram

// fill adds to a weighing what the facts say of it. The target of a weighing
// that is not finished still follows from the others; what was left out brings
// nothing but what was weighed before.
func (p *planner) fill(t work.Task) work.Task {
	t.Mass, t.Done = p.s.Mass(t.ID)
	t.Mass = max(0, t.Mass)
	if d, ok := p.s.Done(t.ID); ok && d.Skipped != "" {
		t.Done, t.Skipped, t.Seq, t.At = true, d.Skipped, d.Seq, d.At
	}
	facts := p.s.Weighings(t.ID)
	if len(facts) == 0 {
		return t
	}
	first, last := facts[0].Fact, facts[len(facts)-1]
	if t.Done {
		t.Target = max(0, last.Fact.Target)
		t.Tolerance = cmp.Or(max(0, last.Fact.Within), t.Tolerance) // As it was while it was weighed.
	}
	t.Seq, t.At = max(t.Seq, last.Seq), last.At
	t.Scale, t.Reads, t.Vessel, t.Tare = first.Scale, first.Reads, first.Vessel, first.Tare
	if !t.Done { // What is in it already stands in what was taken since.
		t.Vessel, t.Tare = p.standsIn(first.Vessel, first.Tare, facts[0].Seq)
	}
	t.Lot = cmp.Or(last.Fact.Lot, t.Lot)
	for _, f := range facts {
		t.ByEye = t.ByEye || f.Fact.How == batch.ByEye
	}
	return t
}

// amount gives what a weighing brings: what was weighed, or else the target.
func amount(t work.Task) Amount {
	return Amount{Name: t.Material, Task: t.ID, Target: t.Target, Mass: brought(&t), Known: t.Done, ByEye: t.ByEye}
}

// brought is the mass of that.
func brought(t *work.Task) quantity.Mass { return max(0, held(t)+t.Later) }

// held gives what a weighing brings by itself, whatever was decided after it.
func held(t *work.Task) quantity.Mass {
	if t.Done || t.Mass > t.Target {
		return t.Mass
	}
	return t.Target
}

// byEyeSpread is how far off a weight by eye may be (common practice, no
// source).
const byEyeSpread = 0.10

// interval gives the weight with what its scale, or the eye, leaves open.
func interval(t work.Task) calc.Interval {
	g := amount(t).Mass.Grams()
	if t.ByEye {
		return calc.Interval{Low: g * (1 - byEyeSpread), Nominal: g, High: g * (1 + byEyeSpread)}
	}
	return calc.Weighed(g, t.Reads.Grams(), 0)
}

// sum adds up what weighings bring.
func sum(tasks ...work.Task) quantity.Mass {
	total := quantity.Mass(0)
	for i := range tasks {
		total += brought(&tasks[i])
	}
	return total
}

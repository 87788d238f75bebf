package steps

import (
	"strings"

	"bench/internal/calc"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/scent"
	"bench/internal/work"
)

// pour is one layer's weighings and what each loaf gets of it.
type pour struct {
	at       int // at is the layer's place, from the floor up.
	recipe   recipe.Layer
	layer    Layer
	colours  []work.Task
	wetted   []work.Task // wetted are colours that are weighed and wetted beforehand, for a pot that is shared.
	scents   []work.Task // scents is what goes into the soap: for the pot, or one a loaf and scent.
	cups     []work.Task // cups is what is weighed out beforehand, for a scent that hurries or goes into portions.
	vessel   recipe.Vessel
	fromPot  work.Task // fromPot is the layer's part of a pot that feeds several.
	gross    work.Task
	portions []work.Task
	shares   []int64     // shares are in what proportion the loaves share it.
	shared   sharing     // shared is the split that they are of.
	mica     []work.Task // mica is the line on top of it, loaf by loaf.
	loafIDs  []string    // loafIDs begin the ids of its tasks, loaf by loaf.
	pourIDs  []string    // pourIDs are the tasks of pouring it, loaf by loaf.
}

// fillLayer works a layer out: colours and scents by its oils, then the split.
func (p *planner) fillLayer(i int) pour {
	l := p.c.Recipe.Layers[i]
	_, bi := p.c.Recipe.Batter(l.Batter)
	k := p.pots[bi]
	planned := sum(k.allOils()...).Grams() * p.size.Shares[i] * p.outOfPot(k, k.base())
	oils := planned
	r := pour{at: i, recipe: l, vessel: k.vessel, shares: p.weights, mica: p.micaTasks(l), loafIDs: make([]string, p.c.Loaves), pourIDs: make([]string, p.c.Loaves)}
	id := r.id()
	for loaf := range p.c.Loaves {
		r.pourIDs[loaf] = work.OfLoaf(id, loaf) + pouring
		r.loafIDs[loaf] = strings.TrimSuffix(r.pourIDs[loaf], pouring) // One text for both.
	}
	r.layer = Layer{Name: l.Name, Batter: l.Batter, Trace: l.Trace}
	r.layer.Place, r.layer.PlaceWhy = scent.PlaceOf(p.c, l)
	if len(k.parts) > 0 {
		n := p.sibling(i)
		r.vessel, r.fromPot = p.rack.LayerJug(i), k.parts[n]
		oils = sum(k.allOils()...).Grams() * k.partOf(r.fromPot)
	}
	r.layer.Oils = quantity.FromGrams(oils)
	p.layerColours(&r, k, oils)
	bare := p.bareMass(i, k, r)
	if r.layer.Place != recipe.InPortions {
		r.scents = p.potScents(r, k.up, oils, bare.Grams())
	}
	lyeFrom := k.lyeFrom
	if len(k.parts) > 0 { // Its part was weighed out of the pot.
		lyeFrom = ""
	}
	p.split(&r, bare+sum(r.scents...), lyeFrom)
	if r.layer.Place == recipe.InPortions {
		p.portionScents(&r, planned, oils, bare.Grams())
	}
	r.layer.Colours = amounts(r.colours)
	r.layer.Mass = bare + sum(r.scents...)
	r.layer.Scents = p.scentsOf(r)
	return r
}

const pouring = "/pour"

// id begins the ids of a layer's tasks.
func (r *pour) id() string { return r.recipe.Batter + "/" + r.recipe.Name }

// partOf is the fraction of what a shared pot holds that this part is, so that
// colour and scent follow what was really poured out and not what stays.
func (k pot) partOf(part work.Task) float64 {
	if net(k.gross) <= 0 {
		return 0
	}
	return amount(part).Mass.Grams() / net(k.gross).Grams()
}

// outOfPot is the fraction of a shared pot that is planned to leave it.
func (p *planner) outOfPot(k pot, load quantity.Mass) float64 {
	if len(p.c.Recipe.LayersOf(k.recipe.Name)) < 2 || load <= 0 {
		return 1
	}
	return max(0, 1-p.c.LeftInVessel.Grams()/load.Grams())
}

// sibling counts a layer among those of its batter.
func (p *planner) sibling(layer int) int {
	for n, at := range p.c.Recipe.LayersOf(p.c.Recipe.Layers[layer].Batter) {
		if at == layer {
			return n
		}
	}
	return 0
}

// bareMass is the layer's batter with its colours and without its scents.
func (p *planner) bareMass(i int, k pot, r pour) quantity.Mass {
	base := quantity.FromGrams(k.base().Grams() * p.size.Shares[i])
	if r.fromPot.ID != "" {
		base = amount(r.fromPot).Mass
	}
	return base + sum(r.colours...)
}

// potScents are weighed for the whole layer at once.
func (p *planner) potScents(r pour, up bool, oils, bare float64) []work.Task {
	var tasks []work.Task
	wanted, _ := scent.Amounts(p.stated(), r.recipe, oils, bare)
	for n, s := range r.recipe.Scents {
		m, _ := p.c.Material(s.Material)
		grams := wanted[n]
		hint := "Weigh it into a lidded cup."
		if scent.Hurries(p.c, r.recipe) {
			hint = "It hurries, so it is weighed now, before the lye solution meets the oils. Lid on."
		}
		tasks = append(tasks, p.follow(p.weigh(weighing{
			id: r.recipe.Batter + "/" + r.recipe.Name + "/" + s.Material, title: s.Material, material: s.Material,
			lot: m.Lot, hint: hint, grams: grams, tolerance: scent.Tolerance(p.c, s, grams, bare),
			vessel: p.rack.Cup(r.at, n), into: r.vessel.Name,
		}), sequel{up: up, wanted: grams}))
	}
	return tasks
}

// shared tells how much of what is stirred into a layer's vessel goes into each
// loaf, and how much stays there with the batter that does.
func (p *planner) shared(r pour, mass, reads quantity.Mass) (portions []quantity.Mass, stays quantity.Mass) {
	weights := make([]int64, 0, p.c.Loaves+1)
	left := int64(min(p.c.LeftInVessel, r.layer.Mass))
	if len(r.portions) == 0 {
		weights = append(weights, max(0, int64(r.layer.Mass)-left))
	} else {
		left = int64(net(r.gross))
		for _, t := range r.portions {
			weights = append(weights, int64(amount(t).Mass))
			left -= int64(amount(t).Mass)
		}
	}
	parts, rest := calc.Portions(mass, append(weights, max(0, left)), reads)
	return parts[:len(weights)], parts[len(weights)] + rest
}

// scentsOf sums a layer's scents up, scent by scent, with the loaves' shares.
func (p *planner) scentsOf(r pour) []Scent {
	var out []Scent
	for n, s := range r.recipe.Scents {
		scent := Scent{Place: r.layer.Place, Amount: Amount{Name: s.Material, Known: true}}
		if r.layer.Place == recipe.InPortions {
			for loaf := range p.c.Loaves {
				t := r.scents[loaf*len(r.recipe.Scents)+n]
				a := amount(t)
				scent.Reads = max(scent.Reads, t.Reads)
				scent.Portions = append(scent.Portions, a.Mass)
				scent.Mass += a.Mass
				scent.Target += a.Target
				scent.Known = scent.Known && a.Known
			}
		} else {
			scent.Amount, scent.Reads = amount(r.scents[n]), r.scents[n].Reads
			scent.Portions, scent.Stays = p.shared(r, scent.Mass, r.scents[n].Reads)
		}
		out = append(out, scent)
	}
	return out
}

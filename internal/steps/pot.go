package steps

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"bench/internal/calc"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/work"
)

// pot is one batter's weighings, as targets and facts now have them.
type pot struct {
	recipe    recipe.Batter
	vessel    recipe.Vessel
	jug       recipe.Vessel
	oils      []work.Task
	alkali    []work.Task
	water     work.Task
	additives []work.Task
	colours   [][]work.Task // colours are those of each layer that it feeds, by the oils that are planned for it.
	gross     work.Task     // gross is the pot, all of it, where it feeds several layers.
	parts     []work.Task   // parts are what each of these layers gets.
	shared    sharing       // shared is the split that they are of.
	koh       float64       // koh is the alkali that the oils take, as g of KOH.
	acids     float64       // acids is the alkali that acids take, as g of KOH.
	after                   // What was decided after a weight that was off.

	lye     quantity.Mass // lye is what of the jug goes into the oils.
	lyeFrom string        // lyeFrom says where that is known from.
}

// base is everything but colours and scents.
func (k pot) base() quantity.Mass {
	return sum(k.allOils()...) + k.lye + k.besideLye() + sum(k.lateRest...) + sum(k.lateLye...)
}

// fillPot works a batter out in the order in which one thing follows from the
// other: oils, alkali, water, additives.
func (p *planner) fillPot(i int) pot {
	b := p.c.Recipe.Batters[i]
	k := pot{recipe: b, vessel: p.rack.Pot(i), jug: p.rack.LyeJug(i)}
	k.oils = p.oilTasks(b, k.vessel, p.size.Oils[i].Grams(), p.potLoad(i))
	p.followDecidedOils(&k, i)
	for _, t := range k.allOils() {
		o, _ := p.c.Oil(oilKey(b, t))
		k.koh += amount(t).Mass.Grams() * o.SV.Nominal / 1000
	}
	oils := sum(k.allOils()...).Grams()
	for _, a := range b.Additives {
		k.additives = append(k.additives, p.follow(p.additiveTask(b, a, k, oils), sequel{batter: b.Name, cup: k.cupFor(a.In), late: k.lateFor(a.In), up: k.up, wanted: a.Rate.Fraction() * oils}))
	}
	brought := gramsOf(k.additives)
	for _, at := range p.c.Recipe.LayersOf(b.Name) {
		k.colours = append(k.colours, p.plannedColours(at, k.vessel, oils*p.size.Shares[at]*p.outOfPot(k, p.potLoad(i))))
	}
	for _, t := range p.carriers(k) {
		if o, ok := p.c.CarriedBy(t.Material, amount(t).Mass.Grams()); ok {
			k.koh += o.Grams * o.Oil.SV.Nominal / 1000
		}
	}
	k.acids = p.c.Acids(b, brought)
	k.alkali = p.alkaliTasks(b, k)
	k.water = p.waterTask(k, oils, brought)
	p.followDecidedLye(&k)
	if !p.s.Undecided() {
		k.water = p.followDecided(k.water, sequel{batter: b.Name, cup: &k.cup, late: &k.lateRest})
		p.waterUp(&k, p.waterWanted(k, oils))
	}
	k.lye, k.lyeFrom = p.lyeIn(k)
	if layers := p.c.Recipe.LayersOf(b.Name); len(layers) > 1 {
		k.gross = p.grossTask(b.Name+"/gross", "Weigh the "+b.Name+" pot, all of it", k.vessel, k.base(), p.partIDs(b.Name, layers)...)
		k.gross.Hint = k.lyeFrom
		k.gross = p.lessSpoons(k, k.gross)
		k.shared = p.layerSplit(k, layers)
		k.parts = k.shared.portions
	}
	return k
}

// waterTask weighs what water a pot's alkali wants beside what the additives bring.
func (p *planner) waterTask(k pot, oils float64, brought []float64) work.Task {
	name := k.recipe.Name
	water, _ := p.c.ExtraWater(k.recipe, gramsOf(k.alkali), brought, oils) // Beyond the solubility only by a deviation; the screen warns.
	tap, _ := p.c.Material(recipe.Water)
	return p.weigh(weighing{
		id: materialID(name, recipe.Water), title: "Water into the lye jug", material: recipe.Water, lot: tap.Lot,
		hint:  "Label the jug: LYE, " + name + ". Water first; alkali goes into water, never water into alkali.",
		grams: water, tolerance: calc.WaterTolerance(water),
		vessel: k.jug, load: quantity.FromGrams(water + sum(k.alkali...).Grams()),
	})
}

// potLoad is what the pot will carry when the batter is complete, roughly
// enough to choose its scale by.
func (p *planner) potLoad(batter int) quantity.Mass {
	load := 0.0
	for i, l := range p.c.Recipe.Layers {
		if l.Batter == p.c.Recipe.Batters[batter].Name {
			load += p.size.Oils[batter].Grams() * p.size.Shares[i] * p.size.Mixtures[i].Total
		}
	}
	return quantity.FromGrams(load)
}

// oilTasks weighs the hard oils first, those that melt last at the front.
func (p *planner) oilTasks(b recipe.Batter, vessel recipe.Vessel, grams float64, load quantity.Mass) []work.Task {
	shares := slices.Clone(b.Oils)
	slices.SortStableFunc(shares, func(x, y recipe.OilShare) int {
		ox, _ := p.c.Oil(x.Oil)
		oy, _ := p.c.Oil(y.Oil)
		return cmp.Or(cmp.Compare(hardness(oy), hardness(ox)), cmp.Compare(y.Share, x.Share))
	})
	koh := 0.0
	for _, o := range b.Oils {
		use, _ := p.c.Oil(o.Oil)
		koh += grams * o.Share.Fraction() * use.SV.Nominal / 1000
	}
	before := quantity.Mass(0)
	tasks := make([]work.Task, 0, len(shares))
	for _, o := range shares {
		use, _ := p.c.Oil(o.Oil)
		hint := "Liquid: in after the hard ones have melted clear."
		if len(use.Blend) > 0 {
			hint = "Melt the blend whole and stir it well first: what sets in it parts from the rest."
		} else if use.Hard {
			hint = fmt.Sprintf("Hard: melts by %.0f °C. Hard oils go in first.", use.Melts)
		}
		tasks = append(tasks, p.weigh(weighing{
			id: materialID(b.Name, o.Oil), title: use.Name, hint: hint, material: use.Name, lot: use.Lot,
			grams:     grams * o.Share.Fraction(),
			tolerance: calc.OilTolerance(koh, b.Superfat.Fraction(), use.SV.Nominal, ingredients(b)),
			vessel:    vessel, load: load, before: before,
		}))
		before += quantity.FromGrams(grams * o.Share.Fraction())
	}
	return tasks
}

// oilKey gives the oil that a task weighs.
func oilKey(b recipe.Batter, t work.Task) string {
	id, _ := strings.CutPrefix(t.ID, b.Name+"/")
	for _, o := range b.Oils {
		if more, ok := strings.CutPrefix(id, o.Oil); ok && (more == "" || more[0] == '/') {
			return o.Oil
		}
	}
	return ""
}

// hardness orders oils by where they melt; liquid ones are all alike.
func hardness(o recipe.OilUse) float64 {
	if !o.Hard {
		return 0
	}
	return o.Melts
}

// ingredients counts what a batter's superfat rests on.
func ingredients(b recipe.Batter) int { return len(b.Oils) + len(b.Alkali) }

func (p *planner) additiveTask(b recipe.Batter, a recipe.Additive, k pot, oils float64) work.Task {
	m, _ := p.c.Material(a.Material)
	into := k.vessel.Name
	if a.In == recipe.InLyeWater {
		into = k.jug.Name
	}
	return p.weigh(weighing{
		id: materialID(b.Name, a.Material), title: a.Material, material: a.Material, lot: m.Lot,
		hint:  fmt.Sprintf("Goes into the %s.", a.In),
		grams: a.Rate.Fraction() * oils, tolerance: calc.WaterTolerance(a.Rate.Fraction() * oils),
		vessel: p.rack.ColourCup(0), into: into,
	})
}

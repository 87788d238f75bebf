package steps

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"bench/internal/calc"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/sure"
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
		o, _ := p.c.Oil(p.oilKey(b, t))
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
	alkali := sum(k.alkali...).Grams()
	water, _ := p.c.ExtraWater(b, gramsOf(k.alkali), brought, oils) // Beyond the solubility only by a deviation; the screen warns.
	tap, _ := p.c.Material(recipe.Water)
	k.water = p.weigh(weighing{
		id: b.Name + "/" + recipe.Water, title: "Water into the lye jug", material: recipe.Water, lot: tap.Lot,
		hint:  "Label the jug: LYE, " + b.Name + ". Water first; alkali goes into water, never water into alkali.",
		grams: water, tolerance: calc.WaterTolerance(water),
		vessel: k.jug, load: quantity.FromGrams(water + alkali),
	})
	p.followDecidedLye(&k)
	if !p.s.Undecided() {
		k.water = p.followDecided(k.water, sequel{batter: b.Name, cup: &k.cup, late: &k.lateRest})
		p.waterUp(&k, p.waterWanted(k, oils))
	}
	k.lye, k.lyeFrom = p.lyeIn(k)
	if layers := p.c.Recipe.LayersOf(b.Name); len(layers) > 1 {
		k.gross = p.grossTask(b.Name+"/gross", "Weigh the "+b.Name+" pot, all of it", k.vessel, k.base(), p.partIDs(b.Name, layers)...)
		k.gross.Hint = k.lyeFrom
		k.shared = p.layerSplit(k, layers)
		k.parts = k.shared.portions
	}
	return k
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
	var soFar quantity.Mass
	for _, o := range shares {
		m, _ := p.s.Mass(oilID(b, o.Oil))
		soFar += m
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
			id: oilID(b, o.Oil), title: use.Name, hint: hint, material: use.Name, lot: use.Lot,
			grams:     grams * o.Share.Fraction(),
			tolerance: calc.OilTolerance(koh, b.Superfat.Fraction(), use.SV.Nominal, ingredients(b)),
			vessel:    vessel, load: load, before: before, soFar: soFar,
		}))
		before += quantity.FromGrams(grams * o.Share.Fraction())
	}
	return tasks
}

func oilID(b recipe.Batter, key string) string { return b.Name + "/" + key }

// oilKey gives the oil that a task weighs.
func (p *planner) oilKey(b recipe.Batter, t work.Task) string {
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
		id: b.Name + "/" + a.Material, title: a.Material, material: a.Material, lot: m.Lot,
		hint:  fmt.Sprintf("Goes into the %s.", a.In),
		grams: a.Rate.Fraction() * oils, tolerance: calc.WaterTolerance(a.Rate.Fraction() * oils),
		vessel: p.rack.ColourCup(0), into: into,
	})
}

// batter gives what the plan says of a pot.
func (p *planner) batter(k pot) Batter {
	b := Batter{
		Name: k.recipe.Name, Oils: amounts(k.allOils()), Alkali: k.alkaliAmounts(), Water: k.ofPartAmount(amount(k.water)),
		Additives: amounts(k.additives), Asked: k.recipe.Superfat, MixAt: k.recipe.MixAt, Mass: k.base(),
	}
	b.Concentration = p.concentration(k)
	var layers []calc.Part
	for _, l := range p.pours {
		if l.recipe.Batter == k.recipe.Name {
			b.Mass += sum(l.colours...) + sum(l.scents...)
			layers = append(layers, calc.Part{Grams: l.layer.Mass.Grams(), GramsPerML: p.size.Mixtures[l.at].GramsPerML})
		}
	}
	b.Density = calc.DensityByVolume(layers...)
	b.Account, b.Own = p.account(k), p.own(k)
	b.Peak, _ = p.lyeSolution(k).Peak()
	b.Superfat, b.Widens = b.Account.Band()
	return b
}

func (p *planner) account(k pot) sure.Account {
	var oils sure.Oils
	for _, t := range k.allOils() {
		use, _ := p.c.Oil(p.oilKey(k.recipe, t))
		for _, o := range p.c.PartsOf(use) {
			oils.Add(o.Name, interval(t), o.Part, o.SV)
		}
	}
	for _, t := range p.carriers(k) {
		if o, ok := p.c.CarriedBy(t.Material, 0); ok {
			oils.Add(o.Oil.Name, interval(t), o.Share, o.Oil.SV)
		}
	}
	var alkalis []calc.AlkaliAmount
	for _, t := range k.allAlkali() {
		m, _ := p.c.Material(t.Material)
		pure := calc.UnstatedPurity()
		if m.Stock > 0 {
			pure = calc.StatedPurity(m.Stock.Fraction())
		} else if m.Purity > 0 {
			pure = calc.StatedPurity(m.Purity.Fraction())
		}
		alkalis = append(alkalis, calc.AlkaliAmount{
			Name: m.Name, Grams: k.inPot(t), Purity: pure, MolarMass: recipe.MolarMass(t.Material),
		})
	}
	return sure.Account{Oils: oils, Alkalis: alkalis, Acids: k.acids}
}

func amounts(tasks []work.Task) []Amount {
	out := make([]Amount, len(tasks))
	for i, t := range tasks {
		out[i] = amount(t)
	}
	return out
}

// own lists the maker's values that a batter rests on.
func (p *planner) own(k pot) []Own {
	var out []Own
	for _, share := range k.recipe.Oils {
		use, _ := p.c.Oil(share.Oil)
		if len(use.Blend) > 0 {
			out = append(out, Own{use.Name, "premelted oils", strings.TrimPrefix(use.SVFrom, "of its oils: ")})
		}
		for _, o := range p.c.PartsOf(use) {
			said := Own{o.Name, fmt.Sprintf("saponification value %.4g mg/g (%.4g to %.4g)", o.SV.Nominal, o.SV.Low, o.SV.High), o.SVFrom}
			if o.Own && !slices.Contains(out, said) {
				out = append(out, said)
			}
		}
	}
	for _, a := range k.recipe.Alkali {
		switch m, _ := p.c.Material(a.Material); {
		case m.Stock > 0:
			out = append(out, Own{m.Name, "stock solution of " + m.Stock.String(), m.StockFrom()})
		case m.Purity > 0:
			out = append(out, Own{m.Name, "purity " + m.Purity.String(), m.PurityFrom()})
		}
	}
	return out
}

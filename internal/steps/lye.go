package steps

import (
	"fmt"
	"strings"

	"bench/internal/batch"
	"bench/internal/calc"
	"bench/internal/lye"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/work"
)

// solution is what is about to be dissolved, for the forecast.
func (p *planner) lyeSolution(k pot) lye.Solution {
	alkalis, water := k.inJug() // With what came on top of what was asked first: the water has it, too.
	return lye.Solution{Control: p.c, Batter: k.recipe, Alkalis: alkalis, Water: water}
}

func gramsOf(tasks []work.Task) []float64 {
	grams := make([]float64, len(tasks))
	for i, t := range tasks {
		grams[i] = amount(t).Mass.Grams()
	}
	return grams
}

// alkaliGrams gives what to weigh of one alkali, impurities included: its share of
// what is needed, less what another is to make up for.
func (p *planner) alkaliGrams(b recipe.Batter, a recipe.AlkaliShare, m recipe.Material, k pot) float64 {
	share := a.Share.Fraction()
	for _, other := range b.Alkali {
		id := materialID(b.Name, other.Material)
		if other.Material == a.Material || !p.decided(id, batch.MakeUp) {
			continue
		}
		weighed, _ := p.s.Mass(id)
		o, _ := p.c.Material(other.Material)
		has := weighed.Grams() * o.PureFraction() * calc.MolarMassKOH / recipe.MolarMass(other.Material)
		share = max(0, share+other.Share.Fraction()-has/(k.koh*(1-b.Superfat.Fraction())+k.acids))
	}
	return calc.AlkaliNeeded(k.koh, k.acids, b.Superfat.Fraction(), share, recipe.MolarMass(a.Material), m.PureFraction())
}

func (p *planner) alkaliTasks(b recipe.Batter, k pot) []work.Task {
	load := p.inCup(b, k)
	before := quantity.Mass(0)
	var tasks []work.Task
	for _, a := range b.Alkali {
		m, _ := p.c.Material(a.Material)
		grams := p.alkaliGrams(b, a, m, k)
		if m.Stock > 0 {
			tasks = append(tasks, p.stockTask(b, m, k, grams))
			continue
		}
		tasks = append(tasks, p.weigh(weighing{
			id: materialID(b.Name, a.Material), title: a.Material, material: a.Material, lot: m.Lot, mustType: true,
			hint:      "Gloves, goggles, sleeves. Read the scale and type what it says.",
			grams:     grams,
			tolerance: calc.AlkaliTolerance(k.koh, recipe.MolarMass(a.Material), m.PureFraction(), ingredients(b)),
			pellet:    p.pellet(k, m),
			vessel:    p.rack.AlkaliCup(), into: k.jug.Name, load: load, before: before,
		}))
		before += quantity.FromGrams(grams)
	}
	return tasks
}

// pellet is the least that a dry alkali is held to, in grams; a batch begun under earlier
// rules goes on without.
func (p *planner) pellet(k pot, m recipe.Material) float64 {
	if !p.c.ToAPellet() || m.Stock > 0 {
		return 0
	}
	return calc.PelletTolerance(k.koh, recipe.MolarMass(m.Name), m.PureFraction())
}

// inCup gives what the alkali cup will carry: two alkalis are weighed one on top of the
// other and go into the water together.
func (p *planner) inCup(b recipe.Batter, k pot) quantity.Mass {
	grams := 0.0
	for _, a := range b.Alkali {
		m, _ := p.c.Material(a.Material)
		if m.Stock > 0 {
			continue
		}
		grams += p.alkaliGrams(b, a, m, k)
	}
	return quantity.FromGrams(grams)
}

// stockTask weighs a stock solution into the jug, on top of the extra water.
func (p *planner) stockTask(b recipe.Batter, m recipe.Material, k pot, grams float64) work.Task {
	oils := sum(k.allOils()...).Grams()
	exact := make([]float64, len(b.Alkali))
	for i, a := range b.Alkali {
		other, _ := p.c.Material(a.Material)
		exact[i] = p.alkaliGrams(b, a, other, k)
	}
	water, _ := p.c.ExtraWater(b, exact, gramsOf(k.additives), oils)
	return p.weigh(weighing{
		id: materialID(b.Name, m.Name), title: fmt.Sprintf("%s, stock of %s", m.Name, m.Stock), material: m.Name, lot: m.Lot, mustType: true,
		hint: fmt.Sprintf("Gloves, goggles, sleeves: it burns like the dry alkali. %s; no crystals in it? Read the scale and type what it says.",
			recipe.Capital(m.StockFrom())),
		grams: grams, tolerance: calc.AlkaliTolerance(k.koh, recipe.MolarMass(m.Name), m.PureFraction(), ingredients(b)),
		vessel: k.jug, load: quantity.FromGrams(water + grams), before: quantity.FromGrams(water),
	})
}

// cooling is how the lye solution cools, as far as it was read since it last heated.
func (p *planner) cooling(k pot) lye.Cooling {
	c := lye.Cooling{Batter: k.recipe.Name, Room: p.c.RoomTemperature(), Wanted: k.recipe.MixAt}
	last, heated := 0, false
	for _, id := range Dissolving(k.recipe.Name) {
		if d, ok := p.s.Done(id); ok {
			last, heated = max(last, d.Seq), true
		}
	}
	if heated {
		c = c.Read(p.s, lyeTemperatureID(k.recipe.Name), last)
	}
	return c
}

// fresh says that the lye solution was read once all was there: the solution,
// the oils, and a layer below that takes a pour. An earlier reading serves the
// forecast, and the gate asks again.
func (p *planner) fresh(k pot, after []string) bool {
	read, ok := p.s.Temperature(lyeTemperatureID(k.recipe.Name))
	if !ok {
		return false
	}
	for _, t := range k.allOils() {
		if !t.Done || t.Seq > read.Seq {
			return false
		}
	}
	for _, stage := range after {
		if layer, isFirm := strings.CutPrefix(stage, "firm/"); isFirm {
			if d, ok := p.s.Done(firmID(layer)); !ok || d.Seq > read.Seq {
				return false
			}
		}
	}
	for _, id := range append(Dissolving(k.recipe.Name), meltID(k.recipe.Name), moreMeltID(k.recipe.Name)) {
		if d, ok := p.s.Done(id); ok && d.Seq > read.Seq {
			return false
		}
	}
	return true
}

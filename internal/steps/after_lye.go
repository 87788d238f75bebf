package steps

import (
	"fmt"
	"slices"
	"strings"

	"bench/internal/batch"
	"bench/internal/calc"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/work"
)

// followDecidedLye adds the alkali that was missing, or pours a part only.
func (p *planner) followDecidedLye(k *pot) {
	if p.s.Undecided() {
		return
	}
	pour := p.touched(partID(k.recipe.Name))
	for i, t := range k.alkali {
		k.alkali[i] = p.followDecided(t, sequel{batter: k.recipe.Name})
		for i, d := range p.s.Decisions(t.ID) {
			id := missingID(t.ID, i)
			if mass, in := p.wants(t.ID, id, i); in && d.Fact.Way == batch.Shortfall {
				p.addAlkali(k, t, id, d, mass)
			}
		}
		pour = pour || p.decided(t.ID, batch.PourPart)
	}
	p.alkaliUp(k)
	for i, t := range k.early {
		k.early[i] = p.followDecided(t, sequel{batter: k.recipe.Name})
		pour = pour || p.decided(t.ID, batch.PourPart)
	}
	for _, t := range k.oils { // One that there was too little of.
		pour = pour || p.decided(t.ID, batch.PourPart)
	}
	if pour {
		p.takePart(k)
	}
}

// alkaliUp brings alkali that is in already up with the rest.
func (p *planner) alkaliUp(k *pot) {
	for i, t := range k.alkali {
		id, a := topUpID(t.ID), k.recipe.Alkali[i]
		m, _ := p.c.Material(a.Material)
		since, _ := p.since(t.ID, len(p.s.Entries)+1)
		grams := p.alkaliGrams(k.recipe, a, m, *k) - (held(&t) + since).Grams()
		madeUp := p.decided(t.ID, batch.MakeUp) // The other one is brought up for both.
		if p.touched(id) || k.up && !madeUp && t.Done && worthWeighing(grams, t) && !p.met(k.recipe.Name) {
			k.early = append(k.early, p.weigh(p.moreAlkali(*k, t, id, "more", grams)))
		}
	}
}

// moreAlkali is more of an alkali that was weighed, for the jug.
func (p *planner) moreAlkali(k pot, t work.Task, id, what string, grams float64) weighing {
	m, _ := p.c.Material(t.Material)
	return weighing{
		id: id, title: t.Material + ", " + what, material: t.Material, lot: t.Lot, mustType: true,
		hint:  "Gloves, goggles, sleeves: it heats. Into the " + k.jug.Name + ", a little at a time; stir until clear.",
		grams: grams, tolerance: ofMore(grams, t.Within.Grams()), pellet: ofMore(grams, p.pellet(k, m)),
		vessel: p.rack.AlkaliCup(), into: k.jug.Name,
	}
}

func (p *planner) addAlkali(k *pot, t work.Task, id string, d batch.Decision, mass quantity.Mass) {
	w := p.moreAlkali(*k, t, id, "the missing part", mass.Grams())
	if !p.combinedBefore(k.recipe.Name, d.Seq) {
		k.early = append(k.early, p.weigh(w))
		return
	}
	_, least, _ := calc.DissolveShortfall(0, w.grams, 1e9) // No water is too much here; the least is asked for.
	k.lateRest = append(k.lateRest, p.weigh(weighing{
		id: k.recipe.Name + "/" + recipe.Water + "/for " + strings.TrimPrefix(id, k.recipe.Name+"/"), title: "A little water for it", material: recipe.Water,
		hint: "Into the rinsed " + k.jug.Name + ". Water first; alkali goes into water.", grams: least * waterToSpare,
		vessel: k.jug,
	}))
	w.hint = "Gloves, goggles, sleeves. Dissolve it in that water, let it cool, then stir it into the batter."
	k.lateLye = append(k.lateLye, p.weigh(w))
}

// waterToSpare keeps a small strong solution clear of its solubility (common
// practice, no source).
const waterToSpare = 1.2

// takePart works out how much of a solution that is too strong is poured.
func (p *planner) takePart(k *pot) {
	jug := p.jugTask(*k)
	full := min(net(jug), k.solution())
	have := p.account(*k).Has()
	wanted := k.koh*(1-k.recipe.Superfat.Fraction()) + k.acids
	if have <= 0 || full <= 0 {
		return
	}
	poured, err := calc.PourPart(full.Grams(), have, min(have, max(0, wanted)), 0)
	if err != nil {
		return // A jug that cannot hold its facts is weighed again first.
	}
	t := work.Task{
		ID: partID(k.recipe.Name), Do: work.Portion, Title: fmt.Sprintf("Pour part of the %s lye solution into the oils", k.recipe.Name),
		Hint:     "Slowly, goggles on. Stop at the reading: what stays is too much.",
		Material: "lye solution", MustType: true, Vessel: jug.Vessel, Tare: jug.Tare, TareKnown: jug.TareKnown,
		Into: k.vessel.Name, Scale: jug.Scale, Reads: jug.Reads, Max: jug.Max, Parts: 1,
		Target: quantity.FromGrams(poured.Pour).FloorTo(jug.Reads), Tolerance: jug.Reads,
	}
	t = p.fill(t)
	t.SoFar = gross(jug)
	t.StopAt = t.SoFar - t.Target
	k.portion, k.part = t, min(1, amount(t).Mass.Grams()/full.Grams())
}

// outOfJug are the tasks by which a lye solution leaves its jug.
func (k pot) outOfJug() []string {
	return []string{CombineID(k.recipe.Name), partID(k.recipe.Name)}
}

// pourPart puts the pouring of a part between the jug's weight and the tick,
// and has the rest labelled.
func (p *planner) pourPart(k pot, jug, pour work.Task) []work.Task {
	if k.portion.ID == "" {
		return []work.Task{jug, pour}
	}
	pour.Title = fmt.Sprintf("The part is in the %s oils", k.recipe.Name)
	keep := p.tick(keepLyeID(k.recipe.Name), fmt.Sprintf("Lid and label the rest: LYE, %.1f %%, %s, date", 100*p.strength(k), (net(jug)-amount(k.portion).Mass).Reading(jug.Reads)),
		"Out of reach of children and animals; it is as caustic as ever.")
	return []work.Task{jug, k.portion, pour, keep}
}

// withLate puts what was decided upon before the first stage of trace that was
// not reached when it was decided.
func (p *planner) withLate(k pot, traces []work.Task) []work.Task {
	all := k.late()
	if len(all) == 0 {
		return traces
	}
	if t := p.tick(lateLyeID(k.recipe.Name), fmt.Sprintf("Dissolve the extra alkali in its water, let it cool, stir it into the %s batter", k.recipe.Name),
		"Gloves, goggles, sleeves: it heats. Alkali into water, stirred until clear: no grain may go into the batter."); len(k.lateLye) > 0 && (t.Done || !p.traced(k.recipe.Name)) {
		t.Signal = "Stir clear"
		all = append(all, t)
	}
	at, first := 0, p.lateSince(k)
	for at < len(traces) && traces[at].Done && traces[at].Seq < first {
		at++
	}
	return append(append(append([]work.Task{}, traces[:at]...), all...), traces[at:]...)
}

// lateSince numbers the first decision that put something into the batter.
func (p *planner) lateSince(k pot) int {
	first := len(p.s.Entries) + 1
	for _, t := range slices.Concat(k.oils, k.alkali, []work.Task{k.water}, k.additives) {
		d, ok := p.s.Decision(t.ID)
		if made, _ := p.lyeMade(k.recipe.Name); ok && (p.combinedBefore(k.recipe.Name, d.Seq) || t.ID == k.water.ID && d.Seq > made) {
			first = min(first, d.Seq)
		}
	}
	return first
}

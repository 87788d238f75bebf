package steps

import (
	"slices"
	"strings"

	"bench/internal/calc"
	"bench/internal/potcheck"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/work"
)

// Vessels lists what can be weighed to see whether all is in.
func (p Plan) Vessels() []potcheck.Content {
	if p.planner == nil {
		return nil
	}
	return p.planner.vessels()
}

// vessels lists the pots and the lye jugs that hold something by the facts, or
// will.
func (p *planner) vessels() []potcheck.Content {
	var list []potcheck.Content
	for _, k := range p.pots {
		met := p.met(k.recipe.Name)
		list = append(list, p.potContent(k, met))
		if !met {
			list = append(list, p.jugContent(k))
		}
	}
	return list
}

func (p *planner) potContent(k pot, met bool) potcheck.Content {
	c := potcheck.Content{Vessel: k.vessel.Name, Batter: k.recipe.Name, Holds: k.recipe.Name + " pot", Tare: k.vessel.Tare}
	kept, portions := p.keptWhole(k)
	if kept.Done {
		c.Kept = net(kept)
	}
	put := func(tasks ...work.Task) { // What went in before the pot was weighed as a whole is part of that.
		p.put(&c, slices.DeleteFunc(slices.Clone(tasks), func(t work.Task) bool { return kept.Done && t.Seq > 0 && t.Seq < kept.Seq })...)
	}
	put(slices.Concat(k.allOils(), k.lateRest, k.lateLye)...)
	for i, a := range k.recipe.Additives {
		if a.In != recipe.InLyeWater {
			put(k.additives[i])
		}
	}
	for _, r := range p.pours {
		if r.recipe.Batter != k.recipe.Name {
			continue
		}
		for i, colour := range r.recipe.Colours {
			if colour.In == recipe.InOils {
				put(r.colours[i])
			}
		}
		if r.layer.Place == recipe.InWarmOils || r.layer.Place == recipe.InPot && len(k.parts) == 0 && met {
			put(r.scents...)
		}
	}
	c.Parts = append(c.Parts, p.outOf(portions)...)
	if !met || !kept.Done {
		lye := calc.Candidate{Name: lyeSolution, Grams: k.lye.Grams(), In: met}
		lye.Tolerance = lye.Grams / 50 // What clings to the jug (common practice, no source).
		c.Parts = append(c.Parts, lye)
	}
	for _, t := range k.lateLye {
		c.Burns = append(c.Burns, t.Material)
	}
	c.Burns = append(c.Burns, lyeSolution)
	if cups, _ := p.wettedFrom(k, kept.Seq, len(p.s.Entries)+1); cups > 0 && len(k.parts) > 0 {
		c.Steam, c.Lost = spoons(cups), bySpoons
	}
	p.weighed(&c, p.potLoadOf(k))
	return c
}

const lyeSolution = "the lye solution"

// keptWhole gives the weight that a pot was kept with before it was shared out, or is to
// be, and the portions that come out of it, in their order.
func (p *planner) keptWhole(k pot) (whole work.Task, portions []work.Task) {
	if len(k.parts) > 0 {
		return k.gross, k.parts
	}
	for _, r := range p.pours {
		if r.recipe.Batter == k.recipe.Name && len(r.portions) > 0 {
			return r.gross, r.portions
		}
	}
	return work.Task{}, nil
}

// outOf are portions as what leaves their vessel: those that did, and the one that is
// next, which may be out without a fact.
func (p *planner) outOf(portions []work.Task) []calc.Candidate {
	var list []calc.Candidate
	for _, t := range portions {
		out := calc.Candidate{Name: portionName(t), Grams: p.wentOut(t, portions).Grams(), Tolerance: t.Reads.Grams(), In: true, Out: true}
		if t.Mass > 0 {
			list = append(list, out)
		}
		if t.Done {
			continue
		}
		out.Grams, out.In = (amount(t).Mass - t.Mass).Grams(), false
		out.Tolerance = max(t.Tolerance.Grams(), out.Grams/50) // Poured by hand (common practice, no source).
		return append(list, out)
	}
	return list
}

func (p *planner) potLoadOf(k pot) quantity.Mass {
	_, at := p.c.Recipe.Batter(k.recipe.Name)
	return p.potLoad(at)
}

func (p *planner) jugContent(k pot) potcheck.Content {
	c := potcheck.Content{Vessel: k.jug.Name, Batter: k.recipe.Name, Holds: k.recipe.Name + " lye solution", Tare: k.jug.Tare}
	p.put(&c, k.water)
	for i, a := range k.recipe.Additives {
		if a.In == recipe.InLyeWater {
			p.put(&c, k.additives[i])
		}
	}
	dry := len(c.Parts)
	p.put(&c, k.alkali...)
	for _, part := range c.Parts[dry:] {
		c.Burns = append(c.Burns, part.Name)
	}
	dissolved := p.ticked(DissolveID(k.recipe.Name))
	for i := range c.Parts[dry:] { // Dry alkali stands in its cup until it is tipped in.
		c.Parts[dry+i].In = c.Parts[dry+i].In && dissolved
	}
	for _, t := range slices.Concat(k.cup, k.early) {
		first := len(c.Parts)
		p.put(&c, t)
		if t.MustType {
			c.Burns = append(c.Burns, t.Material)
		}
		for i := range c.Parts[first:] { // A small solution is not in the jug until it is poured, nor is what waits in a cup.
			c.Parts[first+i].In = c.Parts[first+i].In && p.inJugYet(k, t)
		}
	}
	if dissolved {
		c.Gone, c.Steam = p.steamOf(k)
	}
	p.weighed(&c, k.solution())
	return c
}

// steamOf gives what steam has taken of a lye solution by the last weight of its jug, if
// that weight is no fault, and how much more it may have taken since.
func (p *planner) steamOf(k pot) (gone, may quantity.Mass) {
	may = p.mostSteam(k)
	last, ok := p.jugWeighed(k, len(p.s.Entries)+1)
	if !ok {
		return 0, may
	}
	more, _ := p.jugSince(k, last.Seq)
	gone = k.solution() - more - (last.Fact.Gross - p.emptyOf(last.Seq, last.Fact))
	if gone > may || -gone > k.solution()/50 {
		return 0, may
	}
	return gone, may - max(0, gone)
}

// mostSteam is how much lighter than its facts a lye jug may be without a fault.
func (p *planner) mostSteam(k pot) quantity.Mass {
	return max(k.solution()/50, p.lyeSolution(k).MostSteam()) // The least is common practice, no source.
}

// weighed chooses the scale for a look, and adds up what it should show.
func (p *planner) weighed(c *potcheck.Content, load quantity.Mass) {
	c.Reads = p.rack.Home(recipe.Vessel{Tare: c.Tare}, load).Reads
	c.Slack = c.Reads.Grams()
	c.Expected = c.Weigh()
}

// put adds weighings to what a vessel holds.
func (p *planner) put(c *potcheck.Content, tasks ...work.Task) {
	for _, t := range p.withFollowers(tasks) {
		if t.Skipped != "" {
			continue
		}
		m := held(&t)
		if t.Out {
			m = -m
		}
		part := calc.Candidate{Name: t.Material, Grams: m.Grams(), In: t.Done, Tolerance: t.Reads.Grams()}
		switch {
		case !t.Done && t.Mass > 0: // A container went in already, and more is to come.
			c.Parts = append(c.Parts, calc.Candidate{Name: t.Material, Grams: t.Mass.Grams(), In: true, Tolerance: t.Reads.Grams()})
			part.Grams = (m - t.Mass).Grams()
		case t.ByEye:
			part.Tolerance = byEyeSpread * part.Grams
		}
		c.Parts = append(c.Parts, part)
	}
}

// wentOut gives what of a portion is out of the vessel: what was poured, less what was
// weighed back into it, and what came out of it later.
func (p *planner) wentOut(t work.Task, portions []work.Task) quantity.Mass {
	m := t.Mass
	for n, d := range p.s.Decisions(t.ID) {
		if slices.ContainsFunc(portions, func(o work.Task) bool { return o.ID == d.Fact.Other }) {
			continue // It went over between two jugs.
		}
		if moved, _ := p.s.Mass(evenedID(t.ID, n)); d.Fact.Off > 0 {
			m -= moved
		} else {
			m += moved
		}
	}
	return m
}

// portionName names a portion by what it is for.
func portionName(t work.Task) string {
	_, what, _ := strings.Cut(t.Title, " for ")
	return "the portion for " + what
}

// PouredAs says that a task is the pouring of what a vessel's weight calls by that name.
func PouredAs(t work.Task, name string) bool { return t.Do == work.Portion && portionName(t) == name }

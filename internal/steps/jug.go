package steps

import (
	"fmt"
	"slices"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/work"
)

// The policy of this file: a lye jug holds what was weighed into it less the steam that
// left it. Once it was weighed, that weight counts, and what went in since; before, so
// much less than its facts as steam can take is no fault.

// dissolvedJug asks for the lye jug once its alkali has dissolved: steam has left it, and
// what is missing beyond that was spilled or never went in.
func (p *planner) dissolvedJug(k pot) work.Task {
	t := p.lyeJug(k, dissolvedJugID(k.recipe.Name), fmt.Sprintf("Weigh the %s lye jug again", k.recipe.Name))
	t.Hint = fmt.Sprintf("Spoon out, lid off. Steam leaves it lighter, by up to %s until it is cold.", (t.Tolerance + t.Loss).Reading(t.Reads))
	if t.Done && t.Skipped == "" {
		t.Hint = p.lost(k, t)
	}
	return t
}

// jugTask asks for the lye jug's weight before it is poured.
func (p *planner) jugTask(k pot) work.Task {
	return p.lyeJug(k, jugID(k.recipe.Name), fmt.Sprintf("Weigh the %s lye jug, lid off", k.recipe.Name))
}

// lyeJug asks for the weight of a lye jug; once more when something went into it since
// it was weighed, or is to go.
func (p *planner) lyeJug(k pot, id, title string) work.Task {
	t := p.grossTask(id, title, k.jug, k.solution(), k.outOfJug()...)
	if _, more := p.jugSince(k, t.Seq); t.Done && more && !p.met(k.recipe.Name) {
		t.Done, t.Mass = false, 0
	}
	steam, before := p.lyeSolution(k).MostSteam(), len(p.s.Entries)+1
	if t.Done {
		before = t.Seq
	}
	if last, ok := p.jugWeighed(k, before); ok {
		more, _ := p.jugSince(k, last.Seq)
		is := t.Tare + max(0, last.Fact.Gross-p.emptyOf(last.Seq, last.Fact)+more) // Facts may say anything.
		t.Target, steam = is.RoundTo(t.Reads), steam-(t.Target-is)
	}
	t.Loss, t.Lost = max(0, steam-t.Tolerance), "steam can take"
	return t
}

// jugWeighed gives the last weight of a lye jug before a fact.
func (p *planner) jugWeighed(k pot, before int) (last batch.Grossing, ok bool) {
	for _, id := range []string{dissolvedJugID(k.recipe.Name), jugID(k.recipe.Name)} {
		if g, said := p.s.Gross(id); said && g.Seq < before && g.Seq > last.Seq && !p.moved(g, k.outOfJug()) {
			last, ok = g, true
		}
	}
	if g, looked := p.jugLookedInto(k, before); looked && g.Seq > last.Seq {
		return g, true
	}
	return last, ok
}

// jugLookedInto gives the last weight of a lye jug before a fact that somebody took to
// see whether all is in. It counts while the jug holds all that was weighed for it, and
// only where steam explains it: heavier, the jug may hold what no fact tells of, and
// lighter it may be another one.
func (p *planner) jugLookedInto(k pot, before int) (batch.Grossing, bool) {
	for _, e := range slices.Backward(p.s.Entries[:min(before-1, len(p.s.Entries))]) {
		f, ok := e.Fact.(batch.PotWeighed)
		if !ok || f.Vessel != k.jug.Name || p.s.Withdrawn(e.Seq) {
			continue
		}
		g := batch.Grossing{Fact: batch.Grossed{Vessel: f.Vessel, Gross: f.Gross, Tare: k.jug.Tare}, Seq: e.Seq, At: e.At}
		if p.bySteam(k, f.Expected-f.Gross) && p.jugWhole(k, e.Seq) && !p.moved(g, k.outOfJug()) {
			return g, true
		}
	}
	return batch.Grossing{}, false
}

// bySteam says that steam explains how much lighter than expected a lye jug is.
func (p *planner) bySteam(k pot, short quantity.Mass) bool {
	return -short <= p.rack.Home(k.jug, k.solution()).Reads && short <= p.mostSteam(k)
}

// jugWhole says that by a fact all that was weighed for a lye jug before it was in the
// jug, and nothing out of it yet.
func (p *planner) jugWhole(k pot, seq int) bool {
	before := func(id string) bool {
		d, ok := p.s.Done(id)
		return ok && d.Seq < seq
	}
	name := k.recipe.Name
	if !before(DissolveID(name)) || slices.ContainsFunc(k.outOfJug(), func(id string) bool {
		return before(id) || p.weighedBefore(id, seq) > 0
	}) {
		return false
	}
	straight := k.straight()
	return !slices.ContainsFunc(slices.Concat(k.early, k.cup), func(t work.Task) bool {
		id := moreID(name)
		if slices.ContainsFunc(straight, func(s work.Task) bool { return s.ID == t.ID }) {
			id = straightID(name)
		}
		return t.Mass > 0 && t.Seq < seq && !before(id)
	})
}

// jugSince gives what went into a lye jug after a fact, or is to go.
func (p *planner) jugSince(k pot, seq int) (more quantity.Mass, some bool) {
	for _, t := range slices.Concat(k.early, k.cup, p.withFollowers([]work.Task{k.water})) {
		if t.ID != k.water.ID && (!t.Done || t.Seq > seq) {
			some = true
			if t.Out {
				more -= amount(t).Mass
			} else {
				more += amount(t).Mass
			}
		}
	}
	return more, some
}

// lost says what a jug that was weighed again tells of what was put into it.
func (p *planner) lost(k pot, jug work.Task) string {
	if words := p.jugOff(k, jug); words != "" {
		return "! " + words
	}
	switch off := jug.Tare + k.solution() - jug.Mass; {
	case off > jug.Tolerance:
		return fmt.Sprintf("%s lighter than what went in: steam can take that. If any was spilled, alkali is missing.", off.Reading(jug.Reads))
	case off > jug.Reads:
		return fmt.Sprintf("%s lighter than what went in: steam.", off.Reading(jug.Reads))
	default:
		return "As heavy as what went in."
	}
}

// jugOff says how far a lye jug is from what it should weigh, beyond what steam can take
// of all that went in; or "".
func (p *planner) jugOff(k pot, jug work.Task) string {
	if off := jug.Off(); off > 0 {
		return fmt.Sprintf("The jug is %s heavier than its facts: is it the right one?", off.Reading(jug.Reads))
	}
	most := max(jug.Tolerance, p.lyeSolution(k).MostSteam())
	if short := jug.Tare + k.solution() - jug.Mass; short > most || jug.Off() < 0 {
		return fmt.Sprintf("The jug is %s lighter than its facts. Steam is harmless, and takes %s at most; solution that was spilled or poured off is alkali that is missing.",
			short.Reading(jug.Reads), most.Reading(jug.Reads))
	}
	return ""
}

// lyeIn gives what of the jug goes into the oils: what was poured of it by weight, or
// what the jug held when it was weighed, or else what was weighed into it; and says
// which. That the jug is emptied wholly is an assumption, since nobody weighs it after.
func (p *planner) lyeIn(k pot) (m quantity.Mass, from string) {
	if k.portion.ID != "" {
		return amount(k.portion).Mass, ""
	}
	m = k.solution()
	all := m
	jug := p.jugTask(k)
	if !jug.Done && jug.Seq == 0 {
		jug = p.dissolvedJug(k)
	}
	if !jug.Done && jug.Seq > 0 && jug.Tare > 0 { // It was weighed, and gets more.
		m = min(all, net(jug))
	}
	into := slices.Concat(p.withFollowers(append(slices.Clone(k.alkali), k.water)), k.early, k.cup)
	since := slices.ContainsFunc(into, func(t work.Task) bool { return t.Seq > jug.Seq })
	if !jug.Done || jug.Skipped != "" || jug.Tare <= 0 || since {
		return m, fmt.Sprintf("The lye jug was not weighed since: expected with all %s that went into it.", m.Reading(jug.Reads))
	}
	switch was := net(jug); {
	case was > all+jug.Reads: // Whatever the scale said, no more can be poured than went in.
		return all, fmt.Sprintf("The lye jug weighed more than went into it: expected with the %s that did.", all.Reading(jug.Reads))
	case (was - m).Abs() > jug.Reads: // Within a reading the scale tells nothing.
		m = was
	case was.RoundTo(jug.Reads) != m.RoundTo(jug.Reads):
		return m, fmt.Sprintf("Expected with all %s of lye solution that went into the jug, as its weight bears out.", m.Reading(jug.Reads))
	}
	return m, fmt.Sprintf("Expected with the %s of lye solution that the jug held, all of it poured out.", m.Reading(jug.Reads))
}

// MostLye gives all that went into the lye jug whose weight a task asks for.
func (p Plan) MostLye(task string) (quantity.Mass, bool) {
	if p.planner == nil {
		return 0, false
	}
	for _, k := range p.planner.pots {
		if task == jugID(k.recipe.Name) || task == dissolvedJugID(k.recipe.Name) {
			return k.solution(), true
		}
	}
	return 0, false
}

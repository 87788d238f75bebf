package steps

import (
	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/work"
)

// The policy of this file: what was decided after a weight of water, an additive
// or a scent becomes a weighing of its own that stands behind the first. What
// was weighed on an earlier decision stays, whatever was decided since.

// sequel says how a weighing goes on.
type sequel struct {
	batter string
	cup    *[]work.Task // cup takes what is for the jug once its lye solution is made; nil is not for the jug.
	late   *[]work.Task // late takes what goes into the batter once the lye solution is in the oils; nil takes none.
	up     bool         // up brings what is in already up to what is wanted.
	wanted float64      // wanted is in grams.

	small recipe.Vessel // small is the vessel of the small solution, for its water.
}

// follow adds to a weighing what was decided after it: more of it, or some of it
// out again.
func (p *planner) follow(t work.Task, then sequel) work.Task {
	if p.s.Undecided() {
		return t
	}
	t = p.followDecided(t, then)
	id, short := topUpID(t.ID), then.wanted-amount(t).Mass.Grams()
	if p.touched(id) || then.up && t.Done && worthWeighing(short, t) && !p.met(then.batter) {
		t = p.topUp(t, then, short)
	}
	return t
}

// followDecided adds what was decided upon a weighing itself.
func (p *planner) followDecided(t work.Task, then sequel) work.Task {
	for i, d := range p.s.Decisions(t.ID) {
		in, out := missingID(t.ID, i), outID(t.ID, i)
		if mass, ok := p.wants(t.ID, in, i); ok && d.Fact.Way == batch.AddMissing {
			more := p.another(t, in, mass.Grams(), p.rack.ColourCup(0))
			if p.intoBatter(then, in, d.Seq) {
				more.Hint = "Stir it into the batter while it is thin."
				if !p.combinedBefore(then.batter, d.Seq) {
					more.Hint += " Not into the lye solution: never water into alkali."
				}
				*then.late = append(*then.late, more)
				continue
			}
			t = p.with(t, more, 1)
		}
		if mass, ok := p.wants(t.ID, out, i); ok && d.Fact.Way == batch.TakeOut {
			t = p.with(t, p.outOfIt(t, out, mass.Grams()), -1)
		}
	}
	return t
}

// topUp puts more behind a weighing, or with the small solution where its lye solution
// is made.
func (p *planner) topUp(t work.Task, then sequel, short float64) work.Task {
	id, own := topUpID(t.ID), p.rack.ColourCup(0)
	if then.cup == nil || !p.afterMade(then.batter, id) {
		return p.with(t, p.another(t, id, short, own), 1)
	}
	if t.Material == recipe.Water {
		own = then.small
	}
	more := p.another(t, id, short, own)
	more.Hint = "Gloves, goggles. " + more.Hint
	*then.cup = append(*then.cup, more)
	t.Later += amount(more).Mass
	return t
}

// touched says that something was weighed for a task.
func (p *planner) touched(id string) bool { return len(p.s.Weighings(id)) > 0 }

// with puts a weighing behind the one that it follows.
func (p *planner) with(t, follower work.Task, sign quantity.Mass) work.Task {
	p.putBehind(t.ID, follower)
	t.Later += sign * amount(follower).Mass
	return t
}

// putBehind has the plan list a weighing behind that of an id.
func (p *planner) putBehind(id string, follower work.Task) {
	if p.followers == nil {
		p.followers = map[string][]work.Task{}
	}
	p.followers[id] = append(p.followers[id], follower)
}

func (p *planner) another(t work.Task, id string, grams float64, vessel recipe.Vessel) work.Task {
	return p.weigh(weighing{
		id: id, title: t.Title + ", more", material: t.Material, lot: t.Lot, hint: "Into the " + p.goesInto(t) + ", as was decided.",
		grams: grams, tolerance: ofMore(grams, t.Within.Grams()), vessel: vessel, into: p.goesInto(t),
	})
}

// outAgain follows the name of a material that came out again.
const outAgain = ", out again"

func (p *planner) outOfIt(t work.Task, id string, grams float64) work.Task {
	hint := "Weigh what comes out of the " + p.nowIn(t) + ", as was decided."
	switch {
	case t.MustType:
		hint = "Gloves, goggles, dry spoon. " + hint + " Keep it dry, closed and labelled."
	case t.Material != recipe.Water:
		hint += " Back into its own container while it is clean, or lid it and label it."
	}
	out := p.weigh(weighing{
		id: id, title: t.Title + outAgain, material: t.Material + outAgain, lot: t.Lot, hint: hint, mustType: t.MustType,
		grams: grams, tolerance: ofMore(grams, t.Within.Grams()), vessel: p.outCup(id),
	})
	out.Out = true
	return out
}

// goesInto names the vessel in which a weighing ends up.
func (p *planner) goesInto(t work.Task) string {
	if t.Into != "" {
		return t.Into
	}
	return p.nowIn(t)
}

// withFollowers puts what was decided behind the weighing that it was decided
// on.
func (p *planner) withFollowers(tasks []work.Task) []work.Task {
	if len(p.followers) == 0 {
		return tasks
	}
	var list []work.Task
	for _, t := range tasks {
		list = append(append(list, t), p.followers[t.ID]...)
	}
	return list
}

// lateFor is where an additive goes that is decided upon once the lye solution is in
// the oils; one that goes into the batter anyway stays where it is.
func (k *pot) lateFor(in recipe.Medium) *[]work.Task {
	if in == recipe.InBatter {
		return nil
	}
	return &k.lateRest
}

// cupFor is where more of an additive goes once the lye solution is made; one that is
// not for the jug stays where it is.
func (k *pot) cupFor(in recipe.Medium) *[]work.Task {
	if in != recipe.InLyeWater {
		return nil
	}
	return &k.cup
}

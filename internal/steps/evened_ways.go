package steps

import (
	"fmt"
	"slices"
	"strings"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/timer"
	"bench/internal/ways"
	"bench/internal/work"
)

// The policy of this file: a portion is off where it was poured off, and still is far
// from its share. Once nothing can be done about it any more nothing is to be decided.

// Split is what a way leaves in the jugs of a split, and in the vessel.
type Split struct {
	Lowest, Highest quantity.Length // Lowest and Highest are where the layer comes to lie in the loaves that get it.
	Left            quantity.Mass   // Left is what stays in the vessel.
	In              string
}

// String says where the layer comes to lie and what stays.
func (s *Split) String() string {
	return fmt.Sprintf("height %s, %s g stay in %s", s.Height(), s.Left.At(quantity.Gram), s.In)
}

// Height says where the layer comes to lie, to what an eye can pour to.
func (s *Split) Height() string {
	low, high := ToAnEye(s.Lowest), ToAnEye(s.Highest)
	if low == high {
		return low.String()
	}
	return fmt.Sprintf("%s to %s", strings.TrimSuffix(low.String(), " mm"), high)
}

// splits are all vessels that are shared out, in the order of things.
func (p *planner) splits() []*sharing {
	list := make([]*sharing, 0, len(p.pots)+len(p.pours))
	for i := range p.pots {
		if len(p.pots[i].parts) > 0 {
			list = append(list, &p.pots[i].shared)
		}
	}
	for i := range p.pours {
		if len(p.pours[i].portions) > 0 {
			list = append(list, &p.pours[i].shared)
		}
	}
	return list
}

// portionOf finds a portion by its id.
func (p *planner) portionOf(task string) (s sharing, i int, ok bool) {
	for _, s := range p.splits() {
		if i := s.place(task); i >= 0 {
			return *s, i, true
		}
	}
	return sharing{}, -1, false
}

// portionsOff finds the portions of a split that are to be decided upon.
func (p *planner) portionsOff(s *sharing) []Deviation {
	if !slices.ContainsFunc(s.portions, wasOff) {
		return nil
	}
	var list []Deviation
	fair := p.fair(*s)
	for i, t := range s.portions {
		off := t.There() - fair[i]
		if t.Off() == 0 || off.Abs() <= t.Tolerance || !p.byItself(t) {
			continue
		}
		if d, ok := p.s.Decision(t.ID); ok && d.Fact.Way == batch.CarryOn && asDecided(d.Fact, off) {
			continue
		}
		words := strings.Replace(SayOff(t, t.There()-t.Target), t.Material, t.Title, 1)
		list = append(list, Deviation{Task: t.ID, Batter: s.batter, Off: off, task: t, Words: s.batter + ": " + words})
	}
	return list
}

func wasOff(t work.Task) bool { return t.Done && t.Off() != 0 }

// byItself says that a portion was poured, and stands in its jug as it came out of the pot.
func (p *planner) byItself(t work.Task) bool {
	if !t.Done || t.Skipped != "" || t.There() <= 0 {
		return false
	}
	for _, r := range p.pours {
		if r.fromPot.ID == t.ID {
			return !r.gross.Done && !r.coloured() && !p.ticked(ScentInID(r.recipe.Batter, r.recipe.Name)) && !p.pouredAny(r)
		}
		if i := r.shared.place(t.ID); i >= 0 {
			n := len(r.recipe.Scents)
			stirred := r.layer.Place == recipe.InPortions && slices.ContainsFunc(r.scents[i*n:(i+1)*n], weighedAny)
			return !stirred && !p.ticked(r.pourIDs[i])
		}
	}
	return false
}

// coloured says that a colour was stirred into the batter of a layer.
func (r pour) coloured() bool {
	for i, c := range r.recipe.Colours {
		if c.In == recipe.InBatter && r.colours[i].Mass > 0 {
			return true
		}
	}
	return false
}

// portionWays gives the ways to go on with a portion, each tried out.
func (p *planner) portionWays(plan Plan, d Deviation, s sharing, at int) []WayOn {
	t := s.portions[at]
	stands := ways.Portion{Off: d.Off, Reads: t.Reads, Least: t.Tolerance, Jug: p.jugOf(s, at).Name, Pot: s.from.Vessel}
	fair := p.fair(s)
	for i, other := range s.portions {
		switch {
		case !other.Done && other.Skipped == "":
			stands.ToCome = true
		case i != at && p.byItself(other):
			stands.Others = append(stands.Others, ways.Other{Task: other.ID, Jug: p.jugOf(s, i).Name, Off: other.There() - fair[i]})
		}
	}
	stands.InPot = max(0, s.left()-p.c.LeftInVessel)
	var list []WayOn
	for _, way := range ways.OfPortion(stands) {
		w := WayOn{Way: way}
		w.Fact.Task, w.Fact.Off, w.Fact.Within, w.Fact.ByEye = t.ID, d.Off, t.Tolerance, t.ByEye
		after, by := planOf(p.s.With(w.Fact, timer.Moment{}))
		w.Outcome = outcome(plan, after, d.Batter)
		w.Outcome.Split = by.splitOf(t.ID)
		if w.Fact.Way == batch.CarryOn || fits(plan, after) {
			list = append(list, w)
		}
	}
	return oneDefault(list)
}

// splitOf says where the layer of a portion comes to lie, and what stays in the vessel.
func (p *planner) splitOf(task string) *Split {
	s, _, ok := p.portionOf(task)
	if !ok {
		return nil
	}
	out := Split{Left: max(0, net(s.from)-sum(s.portions...)), In: s.from.Vessel}
	var surfaces []quantity.Length
	for _, r := range p.pours {
		if r.fromPot.ID != task && r.shared.place(task) < 0 {
			continue
		}
		for loaf, l := range r.layer.Loaves {
			if !p.givenUp(loaf, r.at+1) {
				surfaces = append(surfaces, l.Surface)
			}
		}
	}
	if len(surfaces) > 0 {
		out.Lowest, out.Highest = slices.Min(surfaces), slices.Max(surfaces)
	}
	return &out
}

// Gives says how much the vessel holds that something is poured out of, for the task of
// pouring it over that was decided upon a portion.
func (p Plan) Gives(task string) (m quantity.Mass, ok bool) {
	if p.planner == nil {
		return 0, false
	}
	for _, s := range p.planner.splits() {
		for at, t := range s.portions {
			for n, d := range p.planner.s.Decisions(t.ID) {
				if evenedID(t.ID, n) != task {
					continue
				}
				move, _, _ := p.Task(task)
				holds := s.left()
				if from, _ := s.ends(at, d.Fact); from >= 0 {
					holds = s.portions[from].There()
				}
				return holds + amount(move).Mass, true
			}
		}
	}
	return 0, false
}

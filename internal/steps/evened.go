package steps

import (
	"fmt"
	"slices"

	"bench/internal/batch"
	"bench/internal/calc"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/work"
)

// The policy of this file: while a portion stands in its jug as it came out of the pot,
// some of it can go back, or over into another that is off the other way. That is a
// weighing of its own, of the vessel that gets it, which needs no tare. What was weighed
// counts, whatever was decided since; what was only decided counts while the portion is
// as it was decided upon.

// sharing is a vessel that is shared out: its portions, and what each is to get.
type sharing struct {
	batter   string
	from     work.Task // from is the vessel, with all that was in it.
	portions []work.Task
	weights  []int64
	layers   []int // layers are those that share it; nil is the loaves of one.
}

// jugOf is the vessel of a portion.
func (p *planner) jugOf(s sharing, i int) recipe.Vessel {
	if s.layers != nil {
		return p.rack.LayerJug(s.layers[i])
	}
	return p.rack.LoafJug(i)
}

// there is what of the vessel is shared out.
func (p *planner) there(from work.Task) quantity.Mass { return max(0, net(from)-p.c.LeftInVessel) }

// fair is what each portion would get if none were off.
func (p *planner) fair(s sharing) []quantity.Mass {
	list, _ := calc.Portions(p.there(s.from), s.weights, s.from.Reads)
	return list
}

// left is what is in the vessel still, if all that was poured out of it and back is so.
func (s sharing) left() quantity.Mass {
	m := net(s.from)
	for _, t := range s.portions {
		if t.Done {
			m -= t.There()
		}
	}
	return m
}

// uponPortion is the n-th decision upon the portion at a place.
type uponPortion struct {
	batch.Decision
	at, n int
}

// uponPortions lists what was decided upon portions, oldest first.
func (p *planner) uponPortions(s sharing) []uponPortion {
	if p.s.Undecided() {
		return nil
	}
	var all []uponPortion
	for at, t := range s.portions {
		for n, d := range p.s.Decisions(t.ID) {
			all = append(all, uponPortion{d, at, n})
		}
	}
	slices.SortFunc(all, func(a, b uponPortion) int { return a.Seq - b.Seq })
	return all
}

// evenOut brings in what was decided upon portions, and gives what went back into the
// vessel behind each of them.
func (p *planner) evenOut(s sharing) []quantity.Mass {
	all := p.uponPortions(s)
	if len(all) == 0 {
		return nil
	}
	back := make([]quantity.Mass, len(s.portions))
	fair := p.fair(s)
	for _, d := range all {
		t := &s.portions[d.at]
		id, stands := evenedID(t.ID, d.n), t.Done && asDecided(d.Fact, t.There()-fair[d.at])
		if d.Fact.Mass <= 0 || !stands && !p.touched(id) {
			continue
		}
		wanted := d.Fact.Mass
		if !stands {
			wanted, _ = p.s.Mass(id)
		}
		from, into := s.ends(d.at, d.Fact)
		move := p.moveTask(s, id, wanted, from, into)
		mass := amount(move).Mass
		s.add(from, -mass)
		s.add(into, mass)
		switch {
		case into < 0:
			back[d.at] += mass
		case from < 0:
			back[d.at] -= mass
		}
		p.putBehind(t.ID, move)
	}
	return back
}

// ends gives what a decision upon a portion is poured out of, and into: portions, or -1
// for the vessel that they come out of.
func (s sharing) ends(at int, d batch.Decided) (from, into int) {
	from, into = at, s.place(d.Other)
	if d.Off < 0 {
		from, into = into, from
	}
	return from, into
}

// asDecided says that a portion is off by as much as it was decided upon.
func asDecided(d batch.Decided, off quantity.Mass) bool { return (d.Off - off).Abs() <= d.Within }

// place finds a portion, or -1 for the vessel that they come out of.
func (s sharing) place(task string) int {
	return slices.IndexFunc(s.portions, func(t work.Task) bool { return t.ID == task })
}

// add counts what came into a portion, or went out of it.
func (s sharing) add(i int, m quantity.Mass) {
	if i >= 0 {
		s.portions[i].Later += m
	}
}

// moveTask pours some over between two portions, or a portion and the vessel (-1), with
// the one that gets it on the scale.
func (p *planner) moveTask(s sharing, id string, mass quantity.Mass, from, into int) work.Task {
	v, holds, out := recipe.Vessel{Name: s.from.Vessel, Tare: s.from.Tare}, s.left(), s.from.Vessel
	if from >= 0 {
		out = p.jugOf(s, from).Name
	}
	title := "Pour back into " + s.from.Vessel
	if into >= 0 {
		v, holds = p.jugOf(s, into), s.portions[into].There()
		title = "Pour over into " + v.Name
		if from < 0 {
			title = "Pour more into " + v.Name
		}
	}
	scale := p.rack.Home(v, holds+mass)
	return p.fill(work.Task{
		ID: id, Do: work.Weigh, Title: title, Hint: fmt.Sprintf("Out of %s, as was decided. %s stands on the scale.", out, recipe.Capital(v.Name)), Material: work.Batter,
		Target: mass.RoundTo(scale.Reads), Tolerance: max(scale.Reads, min(2*quantity.Gram, mass/10)), Parts: 1,
		Scale: scale.Name, Reads: scale.Reads, Max: scale.Max, Vessel: v.Name, Tare: v.Tare, TareKnown: v.Tare > 0, SoFar: holds,
	})
}

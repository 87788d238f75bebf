package steps

import (
	"fmt"
	"slices"
	"strings"

	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/work"
)

// The policy of this file: a colour is weighed while there is time to rub its
// specks out. That of a pot which feeds one layer goes into its oils; that of a pot
// which is shared waits, wetted, in a cup of its own, and what goes in follows
// from what was really poured out for its layer.

// plannedColours weighs a layer's colours by the oils that are planned for it.
func (p *planner) plannedColours(at int, pot recipe.Vessel, oils float64) []work.Task {
	l, into := p.c.Recipe.Layers[at], pot
	if len(p.c.Recipe.LayersOf(l.Batter)) > 1 {
		into = p.rack.LayerJug(at)
	}
	tasks := make([]work.Task, len(l.Colours))
	for i, c := range l.Colours {
		w := p.colour(l, c, i, oils, into)
		if p.c.WetsFirst(at) {
			w.id += cupSuffix
			w.title = fmt.Sprintf("%s for %s", c.Material, l.Name)
			w.hint = fmt.Sprintf("Into a cup of its own, marked %s; wet it with a spoonful of this pot's oil until no specks show.", l.Name)
			w.vessel, w.into = p.rack.WetCup(at, i), ""
		}
		tasks[i] = p.weigh(w)
	}
	return tasks
}

const cupSuffix = "/cup"

// layerColours gives what goes into a layer: as it was planned, or by the oils
// that it really got of a shared pot.
func (p *planner) layerColours(r *pour, k pot, oils float64) {
	planned := k.colours[p.sibling(r.at)]
	switch {
	case len(k.parts) == 0:
		r.colours = planned
		return
	case p.c.WetsFirst(r.at):
		r.wetted = planned
	}
	for i, c := range r.recipe.Colours {
		w := p.colour(r.recipe, c, i, oils, r.vessel)
		if r.wetted == nil {
			r.colours = append(r.colours, p.weigh(w))
			continue
		}
		w.vessel, w.hint = p.cupOf(r.wetted[i], p.rack.WetCup(r.at, i)), "Stir it in until no streak shows."
		t := p.fromCup(r.wetted[i], func(off quantity.Mass) bool { return off.Abs() <= r.wetted[i].Target/unseen }, w)
		t.Wetted = true
		r.colours = append(r.colours, t)
	}
}

// unseen is the part of a colour that nobody sees, one in so many: common
// practice, no source.
const unseen = 50

func (p *planner) colour(l recipe.Layer, c recipe.Colour, n int, oils float64, into recipe.Vessel) weighing {
	m, _ := p.c.Material(c.Material)
	hint := "Wet it with a little of the oil, then stir it into the oils until no specks show."
	if c.In == recipe.InBatter {
		hint = "Wet it with a spoonful of this batter first, then stir it in until no specks show."
	}
	return weighing{
		id: l.Batter + "/" + l.Name + "/" + c.Material, title: c.Material, material: c.Material, lot: m.Lot, hint: hint,
		grams: c.Rate.Fraction() * oils, vessel: p.rack.ColourCup(n), into: into.Name,
	}
}

// carriers are what may bring oil along. Of a wetted colour that counts which
// went in.
func (p *planner) carriers(k pot) []work.Task {
	list := slices.Concat(append([][]work.Task{k.additives}, k.colours...)...)
	colours := list[len(k.additives):]
	for i, t := range colours {
		if id, cup := strings.CutSuffix(t.ID, cupSuffix); cup {
			if in := p.fill(work.Task{ID: id, Material: t.Material}); in.Done {
				colours[i] = in
			}
		}
	}
	return list
}

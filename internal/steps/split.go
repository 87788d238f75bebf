package steps

import (
	"slices"
	"strconv"

	"bench/internal/calc"
	"bench/internal/fill"
	"bench/internal/form"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/work"
)

// grossTask asks for a vessel with all that is in it; expected is what the
// facts and targets say of its contents. It is asked for again once another vessel was
// taken, unless by then some of the contents had gone out by one of the tasks in out.
func (p *planner) grossTask(id, title string, v recipe.Vessel, expected quantity.Mass, out ...string) work.Task {
	scale := p.rack.Home(v, expected)
	t := work.Task{
		ID: id, Do: work.Gross, Title: title, MustType: true, Vessel: v.Name, Tare: v.Tare, TareKnown: v.Tare > 0,
		Scale: scale.Name, Reads: scale.Reads, Max: scale.Max, Parts: 1,
		Target:    (v.Tare + expected).RoundTo(scale.Reads),
		Tolerance: max(expected/50, scale.Reads),
	}
	if g, ok := p.s.Gross(id); ok && !p.moved(g, out) {
		t.Done, t.Mass, t.Seq, t.At = true, g.Fact.Gross, g.Seq, g.At
		t.Tare, t.Scale, t.Reads = p.emptyOf(g.Seq, g.Fact), g.Fact.Scale, g.Fact.Reads
	}
	return t
}

// net gives what a gross task leaves for the soap, typed or expected.
func net(t work.Task) quantity.Mass {
	if t.Done {
		return max(0, t.Mass-t.Tare)
	}
	return max(0, t.Target-t.Tare)
}

// gross gives what the vessel weighs, typed or expected.
func gross(t work.Task) quantity.Mass {
	if t.Done {
		return t.Mass
	}
	return t.Target
}

// portionTasks shares what a vessel holds by weights, less what stays in it.
// Portions that were poured already stand; the rest is shared among the others, so
// that all of them always add up. The share of a loaf that gets nothing stays in the
// vessel: one that was poured none, or whose task comes with Skipped.
func (p *planner) portionTasks(s sharing, task func(i int) work.Task) sharing {
	pot, weights, tasks := s.from, s.weights, tasksOf(len(s.weights), task)
	s.portions = tasks
	for i := range tasks {
		out := tasks[i].Skipped
		if tasks[i] = p.fill(tasks[i]); !tasks[i].Done {
			tasks[i].Skipped = out
		}
	}
	back := p.evenOut(s)
	left := p.there(pot)
	var open []int64
	for i := range tasks {
		if left -= tasks[i].Later; tasks[i].Done {
			left -= tasks[i].Mass
		}
		if !tasks[i].Done || noPortion(&tasks[i]) {
			open = append(open, weights[i])
		}
	}
	shares, _ := calc.Portions(max(0, left), open, pot.Reads)
	reading := gross(pot)
	for i := range tasks {
		if noPortion(&tasks[i]) { // Its share stays, so that the others are not poured over their line.
			shares = shares[1:]
		} else if !tasks[i].Done {
			tasks[i].Target, shares = shares[0], shares[1:]
		}
		if tasks[i].Skipped != "" {
			tasks[i].Done, tasks[i].Target = true, 0
		}
		tasks[i].SoFar = reading
		reading -= held(&tasks[i])
		tasks[i].StopAt = reading
		if back != nil {
			reading += back[i]
		}
	}
	return s
}

func tasksOf(n int, task func(i int) work.Task) []work.Task {
	tasks := make([]work.Task, n)
	for i := range tasks {
		tasks[i] = task(i)
	}
	return tasks
}

// portion is a task of pouring out of a vessel that stands on the scale.
func portion(id, title string, from work.Task, into string) work.Task {
	return work.Task{
		ID: id, Do: work.Portion, Title: title, Material: work.Batter, Parts: 1,
		Scale: from.Scale, Reads: from.Reads, Max: from.Max, Vessel: from.Vessel,
		Tare: from.Tare, TareKnown: from.TareKnown, Into: into, Tolerance: max(from.Reads, 2*quantity.Gram),
	}
}

// loafWords is what every layer says of a loaf.
type loafWords struct{ no, jug, portion, wipe, cup, from string }

func (p *planner) sayLoaves() []loafWords {
	words := make([]loafWords, p.c.Loaves)
	for i := range words {
		no, jug := strconv.Itoa(i+1), p.rack.LoafJug(i).Name
		words[i] = loafWords{
			no: no, jug: jug, portion: "Portion for loaf " + no, from: "Out of " + jug + ". ", wipe: "Wipe " + jug + " out first: the layer below was in it.",
			cup: "Into its own lidded cup, marked loaf " + no + ".",
		}
	}
	return words
}

// layerSplit shares a pot among all its layers, by their parts of the oils.
func (p *planner) layerSplit(k pot, at []int) sharing {
	weights, ids := make([]int64, len(at)), p.partIDs(k.recipe.Name, at)
	for n, layer := range at {
		weights[n] = int64(p.size.Shares[layer] * 1e9)
	}
	return p.portionTasks(sharing{batter: k.recipe.Name, from: k.gross, weights: weights, layers: at}, func(n int) work.Task {
		name := p.c.Recipe.Layers[at[n]].Name
		return portion(ids[n], "Pour out for "+name, k.gross, p.rack.LayerJug(at[n]).Name)
	})
}

func (p *planner) partIDs(batter string, at []int) []string {
	ids := make([]string, len(at))
	for n, layer := range at {
		ids[n] = batter + "/" + p.c.Recipe.Layers[layer].Name + "/part"
	}
	return ids
}

// split shares a layer among the loaves. A single loaf needs no split: it is
// poured straight from its vessel.
func (p *planner) split(r *pour, mass quantity.Mass, lyeFrom string) {
	if p.c.Loaves < 2 {
		return
	}
	r.gross = p.grossTask(r.id()+"/gross", "Weigh "+r.vessel.Name+", all of it", r.vessel, mass, r.loafIDs...)
	r.gross.Hint = lyeFrom
	r.shares = p.sharesOf(r.at, net(r.gross)-p.c.LeftInVessel)
	r.shared = p.portionTasks(sharing{batter: r.recipe.Batter, from: r.gross, weights: r.shares}, func(i int) work.Task {
		t := portion(r.loafIDs[i], p.words[i].portion, r.gross, p.words[i].jug)
		if r.at > 0 {
			t.Hint = joined(p.words[i].wipe, p.unlike(r))
		}
		if p.givenUp(i, r.at) {
			t.Skipped = "it was given up"
		}
		return t
	})
	r.portions = r.shared.portions
}

// followLoaves takes every loaf up through its layers by what is poured into
// it, and notes where each surface lies. Loaves that get the same rise alike.
func (p *planner) followLoaves() {
	var masses []quantity.Mass
	var levels []form.FaceLayer
	var out fill.Out
	for i := range p.pours {
		p.pours[i].layer.Loaves = make([]LoafPour, p.c.Loaves)
	}
	for loaf := range p.c.Loaves {
		if m := p.got[loaf].masses; !slices.Equal(m, masses) || out != nil || p.out[loaf] != nil {
			masses, out = m, p.out[loaf]
			levels = p.size.Levels(m, out)
		}
		for i := range p.pours {
			r := &p.pours[i]
			tick, poured := p.s.Done(r.pourIDs[loaf])
			line := p.size.Middle(levels[i].PourLine)
			r.layer.Loaves[loaf] = LoafPour{
				Mass: masses[i], PourLine: line, Rim: p.c.Mould.Height - line, Surface: p.size.Middle(levels[i].Surface),
				Poured: poured && tick.Skipped == "", Face: levels[i],
			}
		}
	}
	for i := range p.pours {
		p.settleLayer(&p.pours[i])
	}
}

// settleLayer gives a layer the mean of its loaves, and what its vessel should
// be left with.
func (p *planner) settleLayer(r *pour) {
	l := &r.layer
	n := quantity.Length(0)
	for i, loaf := range l.Loaves {
		if !p.givenUp(i, r.at+1) {
			l.PourLine, l.Surface, n = l.PourLine+loaf.PourLine, l.Surface+loaf.Surface, n+1
		}
	}
	l.PourLine, l.Surface = l.PourLine/max(1, n), l.Surface/max(1, n)
	l.Rim = p.c.Mould.Height - l.PourLine
	l.LeftIn, l.Left = r.vessel.Name, min(p.c.LeftInVessel, l.Mass)
	if len(r.portions) > 0 {
		l.Left = max(0, net(r.gross)-sum(r.portions...))
	} else if tick, _ := p.s.Done(r.pourIDs[0]); tick.Mass > 0 {
		l.Left = max(0, l.Mass-tick.Mass)
	}
	if r.vessel.Tare > 0 {
		l.LeftReads = r.vessel.Tare + l.Left
	}
}

// loafMass is what reaches the mould: what its vessel holds, less what stays there.
func (p *planner) loafMass(r *pour, loaf int) quantity.Mass {
	return max(0, p.inJug(r, loaf)-p.c.LeftInVessel)
}

// inJug is what a loaf is poured out of: a portion and its scent, or of a single loaf
// all of the layer.
func (p *planner) inJug(r *pour, loaf int) quantity.Mass {
	if len(r.portions) == 0 {
		return r.layer.Mass
	}
	mass := brought(&r.portions[loaf])
	if r.layer.Place == recipe.InPortions {
		n := len(r.recipe.Scents)
		mass += sum(r.scents[loaf*n : (loaf+1)*n]...)
	}
	return mass
}

// Displaced gives what embeds take of a layer's room in one loaf, both counted from 0, or
// nothing for one that there is not.
func (p Plan) Displaced(layer, loaf int) []fill.Displaced {
	face := p.Face(loaf).Layers
	if p.planner == nil || layer < 0 || layer >= len(face) {
		return nil
	}
	return p.planner.size.Displaced(face, layer)
}

// Face gives the cut face of one loaf, counted from 0, as it is planned or was
// really poured. It has no layers for a loaf that there is not.
func (p Plan) Face(loaf int) form.Face {
	face := form.Face{Section: p.Mould.Section()}
	for _, l := range p.Layers {
		if loaf >= 0 && loaf < len(l.Loaves) {
			face.Layers = append(face.Layers, l.Loaves[loaf].Face)
		}
	}
	return face
}

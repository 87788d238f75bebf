package steps

import (
	"strconv"

	"bench/internal/calc"
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

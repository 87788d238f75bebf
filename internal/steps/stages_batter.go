package steps

import (
	"fmt"
	"slices"

	"bench/internal/recipe"
	"bench/internal/scent"
	"bench/internal/work"
)

// concentration is that of all alkali and all water that were weighed for a batter,
// wherever they went in.
func (p *planner) concentration(k pot) float64 {
	alkalis, water := k.inJug()
	for i := range alkalis {
		alkalis[i] *= k.poured()
	}
	water *= k.poured()
	for _, t := range slices.Concat(k.lateLye, k.lateRest) {
		grams := amount(t).Mass.Grams()
		if t.Material == recipe.Water {
			water += grams
		}
		k.add(alkalis, t.Material, grams)
	}
	return p.c.Concentration(k.recipe, alkalis, water)
}

// strength is that of what is in the jug.
func (p *planner) strength(k pot) float64 {
	alkalis, water := k.inJug()
	return p.c.Concentration(k.recipe, alkalis, water)
}

// combine lets the lye solution meet the oils. The jug is weighed first: of two
// look-alike jugs, its weight tells which one it is.
func (p *planner) combine(k pot, layer int) work.Stage {
	name := k.recipe.Name
	s := work.Stage{
		ID: combineStageID(name), Kind: work.LyeIntoOils, Batter: name, Title: of("lye into oils", name),
		After: []string{gateStageID(name)}, Ordered: true,
		Why: "From here on the batter thickens, and nothing can be taken out again.",
	}
	if layer > 0 {
		s.Why = "The layer below takes a pour now. " + s.Why
	}
	jug := p.jugTask(k)
	jug.Hint = "Its weight tells the right jug from its look-alike. A little less is steam."
	pour := p.tick(CombineID(name), fmt.Sprintf("Pour the %s lye solution into the %s oils", name, name),
		joined(p.hotLye(k), "Slowly, goggles on. Rinse the jug at once."))
	pour.Signal = "Lye into oils"
	if words := p.jugOff(k, jug); jug.Done && jug.Skipped == "" && words != "" {
		pour.Hint = "! " + words + " " + pour.Hint
	}
	s.Tasks = p.pourPart(k, jug, pour)
	if len(k.more)+len(k.early)+len(k.cup) > 0 { // They were opened again after the gate.
		s.After = append(s.After, oilStageID(name), lyeStageID(name))
	}
	return s
}

// trace goes from emulsion up to what the thinnest layer of the batter wants;
// each stage is one key, and its time is kept.
func (p *planner) trace(k pot) work.Stage {
	name := k.recipe.Name
	s := work.Stage{
		ID: traceStageID(name), Kind: work.TraceStage, Batter: name, Title: of("trace", name), After: []string{combineStageID(name)}, Ordered: true,
	}
	wanted := p.wantedTrace(name)
	s.Why = fmt.Sprintf("Blend in short bursts and stop at %s; the time is kept for next time.", traceName(wanted))
	s.Tasks = make([]work.Task, 0, len(recipe.Traces())+len(k.additives))
	for _, t := range recipe.Traces() {
		s.Tasks = append(s.Tasks, p.tick(traceID(name, t), traceTitle(t), traceLooks(t)))
		if t == wanted {
			break
		}
	}
	s.Tasks = p.withLate(k, s.Tasks)
	for i, a := range k.recipe.Additives {
		if a.In == recipe.InBatter {
			s.Tasks = append(s.Tasks, k.additives[i])
		}
	}
	return s
}

// wantedTrace is the thinnest that any layer of the batter wants; one stage
// thinner still where a scent goes into the pot that will thicken it the rest
// of the way.
func (p *planner) wantedTrace(batter string) recipe.Trace {
	order := recipe.Traces()
	thinnest := len(order) - 1
	for _, at := range p.c.Recipe.LayersOf(batter) {
		if i := slices.Index(order, p.c.Recipe.Layers[at].Trace); i >= 0 {
			if p.pours[at].layer.Place == recipe.InPot && scent.Thickens(p.c, p.c.Recipe.Layers[at]) {
				i = max(0, i-1)
			}
			thinnest = min(thinnest, i)
		}
	}
	return order[thinnest]
}

func traceTitle(t recipe.Trace) string { return recipe.Capital(traceName(t)) + " reached" }

func traceName(t recipe.Trace) string {
	if t == recipe.Emulsion {
		return "emulsion"
	}
	return string(t) + " trace"
}

// thicken takes a layer on to the trace that it wants, when its pot was left
// thinner: for another layer's sake, or because its scent does the rest.
func (p *planner) thicken(r pour) []work.Task {
	var tasks []work.Task
	passed := false
	for _, t := range recipe.Traces() {
		if passed {
			tasks = append(tasks, p.tick(traceID(r.recipe.Batter+"/"+r.recipe.Name, t), traceTitle(t), traceLooks(t)))
		}
		passed = passed || t == p.wantedTrace(r.recipe.Batter)
		if t == r.recipe.Trace {
			break
		}
	}
	return tasks
}

// traceLooks says how a stage of trace is told (common practice, no source).
func traceLooks(t recipe.Trace) string {
	switch t {
	case recipe.Emulsion:
		return "No oil streaks; it pours like cream."
	case recipe.Light:
		return "A drizzle leaves a faint mark that sinks within seconds."
	case recipe.MediumTr:
		return "A drizzle stays on top, like custard."
	case recipe.Thick:
		return "It holds a peak and is spooned."
	}
	return ""
}

func (p *planner) splitLayers(k pot) work.Stage {
	name := k.recipe.Name
	s := work.Stage{
		ID: layersStageID(name), Kind: work.SplitLayers, Batter: name, Title: of("split", name), After: []string{traceStageID(name)}, Ordered: true,
		Why: "One pot for several layers: shared out by weight while it is thin, then coloured and scented each.",
	}
	s.Tasks = append(append(make([]work.Task, 0, len(k.parts)+2), k.gross), k.parts...) // One more reads it back.
	if p.allOver(s.Tasks) {
		s.ReadBack = splitReadBack(s.Tasks)
	}
	return s
}

// allOver says that all of several tasks are done or left out. What is read back
// is said only then.
func (p *planner) allOver(tasks []work.Task) bool {
	return !slices.ContainsFunc(tasks, func(t work.Task) bool { return !t.Done && !p.ticked(t.ID) })
}

func splitReadBack(tasks []work.Task) string {
	text := fmt.Sprintf("net %s g:", net(tasks[0]).At(tasks[0].Reads))
	for _, t := range tasks[1:] {
		text += " " + amount(t).Mass.At(t.Reads)
	}
	return text
}

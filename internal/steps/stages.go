package steps

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"bench/internal/recipe"
	"bench/internal/work"
)

// stages lists the stages in the order of things. Each rule below is common
// practice, no source, and says its reason on the screen.
func (p *planner) stages(balance Balance) []work.Stage {
	list := make([]work.Stage, 0, 8*(2+len(p.pots)+len(p.pours)))
	list = append(list, p.setOut())
	for _, k := range p.pots {
		list = append(list, p.lye(k))
	}
	firm := "" // firm is the wait that must be over before the next pour.
	done := map[string]bool{}
	for i := range p.pours {
		r := p.pours[i]
		_, bi := p.c.Recipe.Batter(r.recipe.Batter)
		k := p.pots[bi]
		stand := p.stand(r, firm)
		if len(stand.Tasks) > 0 {
			list = append(list, stand)
		}
		wet := firm // wet is the stage before, once the batter cannot wait.
		if !done[k.recipe.Name] {
			done[k.recipe.Name] = true
			list = append(list, p.bringTogether(k, i, firm)...)
			wet = list[len(list)-1].ID
		}
		list = append(list, p.pourLayer(r, wet, firm, stand)...)
		firm = list[len(list)-1].ID
	}
	list = append(list, p.finish(firm, balance)...)
	for i := range list {
		list[i].N = i + 1
		list[i].Tasks = p.withFollowers(list[i].Tasks)
		list[i] = p.withReadBack(list[i])
	}
	return list
}

// wipeOut says where a cup or a jug is used again what was in it: by the facts, whatever
// the order was, and then by the plan for what cannot be done yet. Of the same material a
// trace does no harm; the cup of dry alkali takes nothing else, nor do pots and lye jugs.
func (p *planner) wipeOut(list []work.Stage) {
	now := p.heldLast(list)
	held := maps.Clone(now)
	for _, st := range list {
		for j := range st.Tasks {
			t := &st.Tasks[j]
			in, what := p.wetting(st, *t)
			if in == "" || t.Done {
				continue
			}
			was := held[in]
			if t.Open {
				was = now[in]
			}
			if t.Mass == 0 && was != "" && was != what && (t.Do == work.Weigh || st.Kind == work.SplitLayers) {
				out := "out"
				if st.Kind == work.LyeSolution {
					out = "out and dry it" // Dry hydroxide meets no drop.
				}
				first := fmt.Sprintf("Wipe %s %s first: %s was in it.", in, out, was)
				if back, came := strings.CutSuffix(was, outAgain); came && back != recipe.Water {
					first = fmt.Sprintf("%s holds %s that came out again: back into its container, or into a labelled one; then wipe it %s.", recipe.Capital(in), back, out)
				}
				t.Hint = strings.TrimSpace(first + " " + t.Hint)
			}
			held[in] = what
		}
	}
}

// heldLast gives what was in each cup or jug last, by the facts.
func (p *planner) heldLast(list []work.Stage) map[string]string {
	held, since := map[string]string{}, map[string]int{}
	for _, st := range list {
		for j := range st.Tasks {
			t := &st.Tasks[j]
			if t.Mass <= 0 || t.Seq == 0 {
				continue
			}
			if in, what := p.wetting(st, *t); in != "" && t.Seq > since[in] {
				held[in], since[in] = what, t.Seq
			}
		}
	}
	return held
}

// wetting gives the cup or jug that a task puts something into which clings to it, and
// what that is.
func (p *planner) wetting(st work.Stage, t work.Task) (vessel, what string) {
	switch {
	case t.Do == work.Weigh && t.OfBatter(): // Poured over to what is in there of the same.
		return "", ""
	case t.Do == work.Portion && st.Kind == work.SplitLayers:
		return t.Into, "batter of " + strings.TrimSuffix(strings.TrimPrefix(t.ID, st.Batter+"/"), "/part")
	case t.Do == work.Portion:
		return t.Into, "batter of " + st.Layer
	case t.Do == work.Weigh && !t.FromCup && t.Vessel != p.rack.AlkaliCup().Name && !p.isPotOrLyeJug(t.Vessel):
		return t.Vessel, t.Material
	}
	return "", ""
}

func (p *planner) isPotOrLyeJug(vessel string) bool {
	return slices.ContainsFunc(p.pots, func(k pot) bool { return k.vessel.Name == vessel || k.jug.Name == vessel })
}

// bringTogether makes a batter: oils, colour, scent weighed out, gate, lye
// solution into the oils, trace. Everything up to the gate can be done while
// the layer below sets; what follows cannot, because it thickens.
func (p *planner) bringTogether(k pot, layer int, firm string) []work.Stage {
	name := k.recipe.Name
	later := firm != ""
	layers := p.c.Recipe.LayersOf(name)
	stages := append(make([]work.Stage, 0, 5+4*len(layers)), p.oilStage(k, later))
	ready := []string{stages[0].ID, lyeStageID(name)}
	for _, at := range layers {
		r := p.pours[at]
		for _, s := range []work.Stage{r.colourOils(), r.wetColours(), p.scentOut(r), r.scentOils()} {
			if len(s.Tasks) == 0 {
				continue
			}
			if later && p.rack.CupsShared() && (s.Kind == work.WetColours || s.Kind == work.ScentOut) { // Its cups are those of what is poured before.
				s.After = append(s.After, p.lastPourOf(layer-1))
			}
			s.Meanwhile = later
			stages = append(stages, s)
			ready = append(ready, s.ID)
		}
	}
	if firm != "" {
		ready = append(ready, firm)
	}
	stages = append(stages, p.gate(k, ready), p.combine(k, layer), p.trace(k))
	if len(k.parts) > 0 {
		stages = append(stages, p.splitLayers(k))
	}
	return stages
}

// pourLayer takes one layer from the traced batter into the moulds, and waits
// for what comes next. Wet is the stage before; firm is the wait that must be
// over before anything is poured on the layer below, and stand is what must be
// in the mould by then.
func (p *planner) pourLayer(r pour, wet, firm string, stand work.Stage) []work.Stage {
	var stages []work.Stage
	before := []string{wet}
	if firm != "" && firm != wet {
		before = append(before, firm)
	}
	if len(stand.Tasks) > 0 {
		before = append(before, stand.ID)
	}
	add := func(s work.Stage) {
		if len(s.Tasks) == 0 {
			return
		}
		if s.After == nil {
			s.After = before
		} else {
			s.After = append(s.After, before...)
		}
		stages = append(stages, s)
		before = []string{s.ID}
	}
	colour := p.colourBatter(r)
	if wet == firm && len(colour.Tasks) > 0 {
		// The pot was shared out long ago: its colour goes in while the layer
		// below sets.
		colour.After, colour.Meanwhile = []string{layersStageID(r.recipe.Batter)}, true
		stages = append(stages, colour)
		before = append(before, colour.ID)
	} else {
		add(colour)
	}
	for _, s := range []work.Stage{p.scentPot(r), p.thickenStage(r), p.splitStage(r)} {
		add(s)
	}
	if r.layer.Place == recipe.InPortions {
		stages = slices.Grow(stages, p.c.Loaves+4)
		for s := range p.scentAndPour(r) {
			add(s)
		}
	} else {
		add(p.pourStage(r))
	}
	p.whileItSets(r, add)
	return stages
}

// whileItSets adds the waits after a pour, and what is done in them.
func (p *planner) whileItSets(r pour, add func(work.Stage)) {
	if r.presses() {
		add(p.holdEmbeds(r))
		add(p.embeds(r))
	}
	if r.at < len(p.pours)-1 {
		add(p.holdLayer(r))
		add(p.micaLine(r))
	}
}

// finish is what follows the last layer.
func (p *planner) finish(last string, balance Balance) []work.Stage {
	top := p.texture()
	top.After = []string{last}
	cover := p.cover()
	cover.After = []string{top.ID}
	clean := p.cleanUp(balance)
	clean.After = []string{cover.ID}
	return append([]work.Stage{top, cover, clean}, p.after.Stages()...)
}

// of joins a stage's noun with what it is about: "oils · sea".
func of(noun, name string) string { return noun + " · " + name }

package steps

import (
	"fmt"
	"iter"
	"strings"

	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/work"
)

// pourTasks pour a layer into every mould. Loaves that get the same are told the
// same.
func (p *planner) pourTasks(r pour) iter.Seq2[int, work.Task] {
	return func(yield func(int, work.Task) bool) {
		var title, hint string
		for loaf, l := range r.layer.Loaves {
			if before := r.layer.Loaves[max(0, loaf-1)]; loaf == 0 || l.Mass != before.Mass || l.Face.PourLine != before.Face.PourLine {
				title, hint = p.pourWords(r, l)
			}
			into := "Loaf "
			if !p.c.Mould.HasHeights() {
				into = "Mould "
			}
			t := p.tick(r.pourIDs[loaf], into+p.words[loaf].no+": pour "+title, p.pourFrom(&r, loaf)+hint)
			t.Material, t.Target, t.Reads = work.Batter, l.Mass, quantity.Gram
			t.SoFar = r.inJug(loaf)
			if tick, ok := p.s.Done(t.ID); ok && tick.Mass > 0 {
				t.Title = into + p.words[loaf].no + ": poured " + title
				t.Mass, t.Target = tick.Mass, p.loafMass(&r, loaf)
				t.Hint = fmt.Sprintf("%s g went in; %s g stay in %s.", t.Mass.At(t.Reads), max(0, t.SoFar-t.Mass).At(t.Reads), p.jugFor(&r, loaf))
			}
			if p.c.Mould.HasHeights() {
				t.PourLine = ToAnEye(l.PourLine)
			}
			if !yield(loaf, t) {
				return
			}
		}
	}
}

// pourFrom names what a loaf is poured out of.
func (p *planner) pourFrom(r *pour, loaf int) string {
	if len(r.portions) > 0 {
		return p.words[loaf].from
	}
	return "Out of " + r.vessel.Name + ". "
}

// jugFor names the vessel that a loaf is poured out of.
func (p *planner) jugFor(r *pour, loaf int) string {
	if len(r.portions) > 0 {
		return p.words[loaf].jug
	}
	return r.vessel.Name
}

// pourWords says the pour line three ways: from the floor, down from the rim, and as
// the grams that it takes; a sloped one at both walls, and in a mould that has no heights
// the grams alone. None of them need be typed: what is poured stood weighed in its vessel.
func (p *planner) pourWords(r pour, l LoafPour) (title, hint string) {
	how, more := "", ""
	switch {
	case p.size.Standing(r.at):
		how = "Low on both sides of the embeds. "
	case r.at > 0:
		how = "Low, over a spatula. "
	}
	if r.at > 0 {
		more = "more "
	}
	grams := l.Mass.At(quantity.Gram)
	onScale := grams + " g " + more + "on the scale under the mould. Tap the mould."
	takes := "; that takes " + grams + " g" + strings.TrimRight(" "+more, " ") + ". Tap the mould."
	switch n := p.c.Mould.CavityCount(); {
	case l.Sloped():
		left, right := p.size.Walls(l.Face.PourLine)
		rim := p.c.Mould.Height
		return fmt.Sprintf("to %s at the left wall, %s at the right", ToAnEye(left), ToAnEye(right)),
			fmt.Sprintf("%s%s down from the rim at the left, %s at the right%s", how, ToAnEye(max(0, rim-left)), ToAnEye(max(0, rim-right)), takes)
	case !p.c.Mould.HasHeights() && n > 1:
		return fmt.Sprintf("%s g into each of %d cavities", (l.Mass / quantity.Mass(n)).At(quantity.Gram), n), onScale
	case !p.c.Mould.HasHeights():
		return fmt.Sprintf("%s g %sinto it", grams, more), onScale
	}
	return "to " + ToAnEye(l.PourLine).String(), how + ToAnEye(l.Rim).String() + " down from the rim" + takes
}

// ToAnEye rounds a height to the nearest half millimetre, which is what an eye can pour
// to, wherever one is said.
func ToAnEye(l quantity.Length) quantity.Length { return l.RoundTo(quantity.Millimetre / 2) }

// prop sets the moulds on a slope for this layer, or level again after one.
func (p *planner) prop(r pour) []work.Task {
	now, before := r.recipe.Propped, recipe.Propping{}
	if r.at > 0 {
		before = p.c.Recipe.Layers[r.at-1].Propped
	}
	id := r.recipe.Batter + "/" + r.recipe.Name + "/prop"
	switch {
	case now == before:
		return nil
	case now.By == 0:
		return []work.Task{p.tick(id, "Take the props away: the moulds level again", "The layer below has set enough to stay as it lies.")}
	}
	return []work.Task{p.tick(id, fmt.Sprintf("Prop the %s side of each mould up by %s", now.Side, now.By),
		"Along its whole length, at the lower edge; it stays so until the layer is firm.")}
}

// stand puts in place what stands in the moulds before a layer is poured.
func (p *planner) stand(r pour, firm string) work.Stage {
	s := r.stage("stand/", work.StandEmbeds, "stand")
	s.Why = "These stand in the mould first, and the batter is poured round them."
	s.After = []string{setOutID}
	if firm != "" {
		s.After = []string{firm}
	}
	for loaf := range p.c.Loaves {
		for n, e := range r.recipe.Embeds {
			if e.Stood {
				s.Tasks = append(s.Tasks, p.embedTask(&r, loaf, n, "stand it in place"))
			}
		}
	}
	return s
}

// embeds are pressed in after the pour.
func (p *planner) embeds(r pour) work.Stage {
	s := r.stage("embeds/", work.Embeds, "embeds")
	s.Why = "With a slow roll, so that no air stays under them."
	s.Tasks = make([]work.Task, 0, p.c.Loaves*len(r.recipe.Embeds))
	for loaf := range p.c.Loaves {
		for n, e := range r.recipe.Embeds {
			if !e.Stood {
				s.Tasks = append(s.Tasks, p.embedTask(&r, loaf, n, "press it in"))
			}
		}
	}
	return s
}

func (p *planner) embedTask(r *pour, loaf, n int, order string) work.Task {
	e := r.recipe.Embeds[n]
	_, lowest, _, _ := r.layer.Loaves[loaf].Face.Embeds[n].Box()
	bottom := ToAnEye(max(0, quantity.FromMillimetres(lowest)))
	_, height := e.Size()
	hint := p.rowWords(r.recipe.Name, loaf, e.Name) + fmt.Sprintf("Its top then stands at %s. Its middle %s from the left wall; level from end to end.", bottom+height, e.Across)
	if e.Turn > 0 {
		hint += fmt.Sprintf(" Turned by %g° anticlockwise.", e.Turn.Degrees())
	}
	t := p.tick(EmbedTask(r.recipe.Name, loaf, e.Name),
		fmt.Sprintf("Loaf %d, %s: %s, lowest point %s above the floor", loaf+1, e.Name, order, bottom), hint)
	t.Shows = bottom.String()
	return t
}

// micaLine dusts the surface that the next layer is poured on.
func (p *planner) micaLine(r pour) work.Stage {
	s := r.stage("mica line/", work.MicaLine, "mica line")
	s.Why = "A thin line on the cut face. Too much, and the layers come apart along it."
	s.Tasks = r.mica
	return s
}

func (p *planner) micaTasks(l recipe.Layer) []work.Task {
	var tasks []work.Task
	line := l.MicaLine
	for loaf := 0; loaf < p.c.Loaves && line.PerLoaf > 0; loaf++ {
		m, _ := p.c.Material(line.Material)
		tasks = append(tasks, p.weigh(weighing{
			id:    work.OfLoaf(l.Name, loaf) + "/line/" + line.Material,
			title: fmt.Sprintf("%s on %s, loaf %d", line.Material, l.Name, loaf+1), material: line.Material, lot: m.Lot,
			hint:  "Through a fine sieve held low, as thin as shows.",
			grams: line.PerLoaf.Grams(), vessel: p.rack.ColourCup(loaf),
		}))
	}
	return tasks
}

package steps

import (
	"fmt"
	"iter"
	"slices"
	"strconv"
	"strings"

	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/scent"
	"bench/internal/work"
)

func (p *planner) colourBatter(r pour) work.Stage {
	s := r.stage("colour/", work.ColourBatter, "colour")
	s.Why = "One pot, several colours: each layer is coloured after the split."
	for i, c := range r.recipe.Colours {
		if c.In == recipe.InBatter {
			s.Tasks = append(s.Tasks, r.colours[i])
		}
	}
	return s
}

// stage begins a stage that is about one layer.
func (r pour) stage(id string, kind work.Kind, noun string) work.Stage {
	return work.Stage{ID: id + r.recipe.Name, Kind: kind, Batter: r.recipe.Batter, Layer: r.recipe.Name, Title: of(noun, r.recipe.Name)}
}

func (p *planner) scentPot(r pour) work.Stage {
	s := r.stage("scent/", work.ScentPot, "scent")
	s.Why, s.Ordered = recipe.Capital(r.layer.PlaceWhy)+".", true
	if r.layer.Place != recipe.InPot || len(r.scents) == 0 {
		return s
	}
	if !scent.Hurries(p.c, r.recipe) {
		s.Tasks = append(s.Tasks, r.scents...)
	}
	s.Tasks = append(s.Tasks, p.tick(ScentInID(r.recipe.Batter, r.recipe.Name),
		fmt.Sprintf("Stir %s g of scent into %s", sum(r.scents...).At(r.scents[0].Reads), r.vessel.Name), p.fromCups(r)+r.staysHint()+"By hand, until no streak shows."))
	s.Tasks = append(s.Tasks, p.thicken(r)...)
	return s
}

// fromCups names the cups that a layer's scents wait in.
func (p *planner) fromCups(r pour) string {
	var cups []string
	for i := range r.scents {
		if name := p.nowIn(r.scents[i]); !slices.Contains(cups, name) {
			cups = append(cups, name)
		}
	}
	return "Out of " + strings.Join(cups, ", ") + ". "
}

// staysHint says what of a layer's scents is for the batter that stays behind, so
// that what the loaves get adds up to what was weighed.
func (r pour) staysHint() string {
	stays := quantity.Mass(0)
	for _, s := range r.layer.Scents {
		stays += s.Stays
	}
	if stays <= 0 {
		return ""
	}
	return fmt.Sprintf("Of it %s is for the batter that stays in %s. ", stays.Reading(r.scents[0].Reads), r.vessel.Name)
}

// thickenStage stands where there is no scent to stir into the pot.
func (p *planner) thickenStage(r pour) work.Stage {
	s := r.stage("thicken/", work.TraceStage, "trace")
	s.Why, s.Ordered = fmt.Sprintf("This layer wants %s; look before every burst.", traceName(r.recipe.Trace)), true
	if r.layer.Place != recipe.InPot || len(r.scents) == 0 {
		s.Tasks = p.thicken(r)
	}
	return s
}

func (p *planner) splitStage(r pour) work.Stage {
	s := r.stage("split/", work.Split, "split")
	s.Ordered = true
	s.Why = fmt.Sprintf("By weight, out of %s: %d portions that add up to what is there.", r.vessel.Name, p.c.Loaves)
	if len(r.portions) == 0 {
		return s
	}
	s.Tasks = append(append(make([]work.Task, 0, len(r.portions)+2), r.gross), r.portions...) // One more reads it back.
	if p.allOver(s.Tasks) {
		s.ReadBack = splitReadBack(s.Tasks)
	}
	return s
}

func (p *planner) pourStage(r pour) work.Stage {
	s := r.stage("pour/", work.Pour, "pour")
	s.Why = "Pour to the line; the embeds lift it to the finished surface."
	if !r.presses() {
		s.Why = "Low and slow, over a spatula when there is a layer below."
	}
	s.Tasks = slices.Grow(p.prop(r), p.c.Loaves+1)
	for _, pour := range p.pourTasks(r) {
		s.Tasks = append(s.Tasks, pour)
	}
	return s
}

// scentAndPour stirs its scent into each portion and pours it at once, loaf by
// loaf.
func (p *planner) scentAndPour(r pour) iter.Seq[work.Stage] {
	why, n := recipe.Capital(r.layer.PlaceWhy)+".", len(r.recipe.Scents)
	return func(yield func(work.Stage) bool) {
		for loaf, pour := range p.pourTasks(r) {
			noun := "pour " + p.words[loaf].no
			s := r.stage(noun+"/", work.ScentAndPour, noun)
			s.Why, s.Loaf, s.Ordered = why, loaf+1, true
			s.Tasks = make([]work.Task, 0, n+1)
			if loaf == 0 {
				s.Tasks = append(s.Tasks, p.prop(r)...)
			}
			s.Tasks = append(append(s.Tasks, r.scents[loaf*n:(loaf+1)*n]...), pour)
			if !yield(s) {
				return
			}
		}
	}
}

// presses says that embeds are pressed into the layer once it is poured.
func (r pour) presses() bool {
	return slices.ContainsFunc(r.recipe.Embeds, func(e recipe.Embed) bool { return !e.Stood })
}

func (p *planner) holdEmbeds(r pour) work.Stage {
	s := r.stage("hold/", work.HoldEmbeds, "hold")
	s.Why = "Thick enough that a scrap pressed in stays where it is put; thinner, and the embeds sink."
	s.Tasks = []work.Task{p.look(embedsStayID(r.recipe.Name), "Stays put?", "A scrap pressed in stays where it is put", "Look after 5 minutes, then every 5.")}
	return s
}

func (p *planner) holdLayer(r pour) work.Stage {
	next := p.pours[r.at+1].recipe.Name
	s := r.stage("firm/", work.HoldLayer, "firm")
	s.Why = fmt.Sprintf("Firm enough to take %s over a spatula without a dent. Not set hard, or the layers do not bond.", next)
	s.Tasks = []work.Task{p.look(firmID(r.recipe.Name), "Firm?", "Batter poured over a spatula leaves no dent", "Look after 5 minutes, then every 5.")}
	return s
}

func (p *planner) look(id, signal, title, hint string) work.Task {
	t := p.tick(id, title, hint)
	t.Do, t.Signal = work.Look, signal
	return t
}

// lastPourOf is the stage in which the last of a layer goes into the moulds.
func (p *planner) lastPourOf(layer int) string {
	r := &p.pours[layer]
	if r.layer.Place == recipe.InPortions {
		return "pour " + strconv.Itoa(p.c.Loaves) + "/" + r.recipe.Name
	}
	return "pour/" + r.recipe.Name
}

package steps

import (
	"slices"

	"bench/internal/batch"
	"bench/internal/recipe"
	"bench/internal/rest"
	"bench/internal/work"
)

func (p *planner) texture() work.Stage {
	s := work.Stage{ID: "texture", Kind: work.Texture, Title: "texture", Why: "While the top still moves."}
	top := p.c.Recipe.Top
	title := "Tap the moulds; leave the top smooth"
	if top.Texture != "" {
		title = "Texture the tops: " + top.Texture
	}
	s.Tasks = slices.Concat([]work.Task{p.tick("top/texture", title, "")}, p.toppings)
	return s
}

// topTasks weigh the toppings loaf by loaf: they belong on the label.
func (p *planner) topTasks() []work.Task {
	tasks := make([]work.Task, 0, p.c.Loaves*len(p.c.Recipe.Top.Toppings))
	for loaf := range p.c.Loaves {
		for n, t := range p.c.Recipe.Top.Toppings {
			m, _ := p.c.Material(t.Material)
			tasks = append(tasks, p.weigh(weighing{
				id: work.OfLoaf("top", loaf) + "/" + t.Material, title: t.Material + " on loaf " + p.words[loaf].no,
				material: t.Material, lot: m.Lot, grams: t.PerLoaf.Grams(), vessel: p.rack.ColourCup(n),
			}))
		}
	}
	return tasks
}

func (p *planner) cover() work.Stage {
	s := work.Stage{ID: "cover", Kind: work.Cover, Title: "cover"}
	switch p.c.Recipe.Gel {
	case recipe.GelForced:
		s.Why = "Gel is wanted: it needs its own heat."
		s.Tasks = []work.Task{p.tick(coverID, "Cover and wrap the moulds warmly", "Look at 1 and 3 hours; unwrap if it cracks or rises.")}
	case recipe.GelPrevented:
		s.Why = "Gel is not wanted: the heat must get away."
		s.Tasks = []work.Task{p.tick(coverID, "Cover against ash; stand the moulds apart in the cold", "A fridge or a cool floor.")}
	case recipe.GelLeft:
		s.Why = "Gel may come or not: covered against ash, not wrapped."
		s.Tasks = []work.Task{p.tick(coverID, "Cover the moulds lightly", "Away from draughts, children and animals.")}
	}
	return s
}

func (p *planner) cleanUp(balance Balance) work.Stage {
	over := p.ticked(glovesID)
	code := rest.PassedBy(p.tick("clean up/code", "Tape the batch code onto every mould", "So that no loaf is ever without its name."), over, "nothing was noted")
	left := p.after.Aside("clean up/leftover", batch.LeftoverBatter, "Weigh the leftover batter",
		recipe.Capital(balance.String())+". Scrape the vessels out into a cavity or a cup, marked with the code. 0 is none; space is some, not weighed.")
	sample := p.after.Aside("clean up/sample", batch.SampleBar, "Pour a sample bar, marked with the code", "If there is enough: it is cut open later instead of a bar. What was weighed as leftover counts already. 0 is none.")
	return work.Stage{
		ID: "clean up", Kind: work.CleanUp, Title: "clean up", Ordered: true,
		Why:      "The hydroxide first and the gloves last: what is left on the bench still burns tomorrow.",
		ReadBack: balance.String(),
		Tasks: slices.Concat([]work.Task{p.tick(hydroxideID, "Put the hydroxide away: lid tight, out of reach", "Before anything else.")}, p.putAwayTasks(over), []work.Task{
			code, rest.PassedBy(left, over, "nothing was noted"), rest.PassedBy(sample, over, "nothing was noted"),
			p.tick(rinsedID, "Rinse lye jugs and spoons with plenty of water", ""),
			p.tick(wipedID, "Wipe raw batter out of pots and jugs with paper", "Tools can wait a day: then it is soap."),
			p.tick(glovesID, "Wipe the bench down; gloves and goggles off last", "Wash hands."),
		}),
	}
}

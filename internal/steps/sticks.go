package steps

import (
	"fmt"
	"strings"

	"bench/internal/cut"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/work"
)

// stickTasks set the sticks out and cut them. A design without a plan is asked
// for by its length alone.
func (p *planner) stickTasks() []work.Task {
	var tasks []work.Task
	for _, plan := range p.c.Sticks {
		for _, s := range plan.Plan.Sticks {
			from := "lot " + s.Lot
			if s.Fresh {
				from = "to be made"
			}
			hint := "At room temperature, wiped free of ash. Mark each piece, and which end of the loaf goes to the stop."
			if s.Offcut > 0 {
				hint += fmt.Sprintf(" %s is left.", s.Offcut)
			}
			tasks = append(tasks, p.tick(stickID(plan.Stick, s.N),
				fmt.Sprintf("%s stick %d, %s, %s: cut %s", plan.Stick, s.N, s.Length, from, pieceWords(s.Pieces)), hint))
		}
	}
	return tasks
}

const setOutStick = "set out/"

func stickID(stick string, n int) string { return fmt.Sprintf("%s%s/stick %d", setOutStick, stick, n) }

// SetsOutStick says that a task sets out a stick, and cuts it.
func SetsOutStick(task string) bool {
	return strings.HasPrefix(task, setOutStick) && strings.Contains(task, "/stick ")
}

// StickOf gives the stick that a task sets out.
func StickOf(c recipe.Control, task string) (of recipe.StickPlan, s cut.Strip, ok bool) {
	if !SetsOutStick(task) { // Asked of every tick that is kept.
		return of, s, false
	}
	for _, plan := range c.Sticks {
		for _, s := range plan.Plan.Sticks {
			if task == stickID(plan.Stick, s.N) {
				return plan, s, true
			}
		}
	}
	return of, s, false
}

// readySticks asks for the sticks of designs without a plan.
func (p *planner) readySticks() []work.Task {
	var tasks []work.Task
	for _, l := range p.c.Recipe.Layers {
		for _, e := range l.Embeds {
			if _, ok := planOfSticks(p.c, l.Name, e.Name); ok {
				continue
			}
			length := p.c.Mould.Along() * quantity.Length(p.c.Loaves)
			tasks = append(tasks, p.tick("set out/"+l.Name+"/"+e.Name, fmt.Sprintf("%s, %s of stick", e.Name, length),
				"At room temperature, wiped free of ash."))
		}
	}
	return tasks
}

func pieceWords(pieces []cut.Piece) string {
	var words []string
	for _, piece := range pieces {
		words = append(words, fmt.Sprintf("%s %s", piece.Label(), piece.Length))
	}
	return strings.Join(words, ", ")
}

// planOfSticks gives the plan of the sticks that an embed is cut from.
func planOfSticks(c recipe.Control, layer, embed string) (recipe.StickPlan, bool) {
	for _, plan := range c.Sticks {
		if plan.Row(layer, embed) > 0 {
			return plan, true
		}
	}
	return recipe.StickPlan{}, false
}

// rowWords says which pieces an embed's row is made of, from the end that goes
// to the cutter's stop; empty where no sticks are planned.
func (p *planner) rowWords(layer string, loaf int, embed string) string {
	plan, ok := planOfSticks(p.c, layer, embed)
	switch {
	case !ok:
		return ""
	case loaf >= len(plan.Plan.Loaves):
		return "No stick is planned for this loaf. "
	}
	row := plan.Plan.Loaves[loaf].Rows[plan.Row(layer, embed)-1]
	words := "From the marked end: " + pieceWords(row.Pieces) + ". "
	for _, s := range plan.Plan.Shows {
		if s.Loaf == loaf+1 && s.Row == row.N {
			words += fmt.Sprintf("A join shows in bar %d. ", s.Bar)
		}
	}
	return words
}

package steps

import (
	"fmt"
)

// dissolvedJug asks for the lye jug once its alkali has dissolved: steam has
// left it, and what is missing beyond that was spilled or never went in.
func (p *planner) dissolvedJug(k pot) Task {
	name := k.recipe.Name
	t := p.grossTask(name+"/lye jug/dissolved", fmt.Sprintf("Weigh the %s lye jug again", name), k.jug, k.solution())
	t.Hint = "Spoon out, lid off. Steam leaves it lighter; more than a fiftieth is not steam alone."
	if t.Done && t.Skipped == "" {
		t.Hint = p.lost(t)
	}
	return t
}

// lost says what a jug that was weighed again tells of what was put into it.
func (p *planner) lost(jug Task) string {
	switch off := jug.Mass - jug.Target; {
	case abs(off) <= jug.Tolerance && off < -jug.Reads:
		return fmt.Sprintf("%s lighter than what went in: steam.", grams(-off, jug.Reads))
	case abs(off) <= jug.Tolerance:
		return "As heavy as what went in."
	default:
		return "! " + jugOff(jug)
	}
}

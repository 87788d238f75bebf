package steps

import (
	"strings"

	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/sticks"
	"bench/internal/work"
)

// Laid is what an embed brings into one loaf. Nobody weighs it.
type Laid struct {
	Stick  string
	Dough  string          // Dough is what the stick was formed of, or "" where the recipe does not say.
	Lot    string          // Lot is that of the sticks on hand, or of the dough of those that were made for the batch.
	Loaf   int             // Loaf counts from 1.
	Length quantity.Length // Length is that of all its pieces.
	Mass   quantity.Mass   // Mass is by the size of its outline.
}

// LaidBy gives what a task brings into its loaf, where it is about an embed.
func LaidBy(c recipe.Control, task string) (Laid, bool) {
	for _, l := range c.Recipe.Layers {
		for _, e := range l.Embeds {
			if !strings.HasSuffix(task, "/"+e.Name) { // Asked of every tick that is kept.
				continue
			}
			if loaf := work.LoafOf(task); loaf > 0 && task == EmbedTask(l.Name, loaf-1, e.Name) {
				return laid(c, l.Name, e, loaf), true
			}
		}
	}
	return Laid{}, false
}

func laid(c recipe.Control, layer string, e recipe.Embed, loaf int) Laid {
	dough, _ := c.Material(e.Dough)
	in := Laid{Stick: e.StickName(), Dough: e.Dough, Lot: dough.Lot, Loaf: loaf, Length: c.Mould.Along()}
	if plan, ok := planOfSticks(c, layer, e.Name); ok && loaf <= len(plan.Plan.Loaves) {
		in.Length = 0
		for _, piece := range plan.Plan.Loaves[loaf-1].Rows[plan.Row(layer, e.Name)-1].Pieces {
			in.Length += piece.Length
			if from := plan.Plan.Sticks[piece.Stick-1]; !from.Fresh { // No two lots go into one loaf.
				in.Lot = from.Lot
			}
		}
	}
	in.Mass = sticks.Weigh(c, e, in.Length)
	return in
}

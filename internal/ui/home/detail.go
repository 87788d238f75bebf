package home

import (
	"cmp"
	"slices"

	"bench/internal/front"
	"bench/internal/judge"
	"bench/internal/quantity"
	"bench/internal/reply"
	"bench/internal/timer"
	"bench/internal/ui/ink"
	"bench/internal/work"
)

// detail is what the cursor is on, to be read from afar: what is next in a batch and
// what was said, or what a recipe is.
func (h Screen) detail(t ink.Theme, w, rows int, now timer.Moment) []string {
	switch b, r := h.chosen(); {
	case b != nil:
		return h.batchDetail(t, b, w, rows, now)
	case r != nil:
		return recipeDetail(t, r, w, rows)
	}
	return nil
}

func (h Screen) batchDetail(t ink.Theme, b *front.UnderWay, w, rows int, now timer.Moment) []string {
	lines := append([]string{""}, nextLines(t, b, w, rows, now)...)
	if b.HeldBy != "" {
		lines = append(lines, ink.Warning(t, ink.Clean(b.HeldBy), w)...)
	}
	if len(b.State.Entries) > 0 {
		lines = append(lines, "", "  "+t.Strong.Render("Said before"))
	}
	for _, e := range slices.Backward(b.State.Entries) {
		if len(lines) >= rows {
			break
		}
		lines = append(lines, "  "+t.Quiet.Render(ink.Cut(said(e, b.State, now, h.At), w-3)))
	}
	return lines
}

// nextLines say what is next, with its weight where that is no secret.
func nextLines(t ink.Theme, b *front.UnderWay, w, rows int, now timer.Moment) []string {
	next, ok := b.Plan.Next(now)
	if !ok {
		which, remedy := judge.Overheats(b.Plan)
		if which == "" {
			return []string{"  " + t.Title.Render("Nothing to do just now")}
		}
		lines := []string{"  " + t.Off.Render(ink.SignOff) + " " + t.Title.Render("It overheats: "+which)}
		for _, l := range ink.Wrap(remedy, w-3) {
			lines = append(lines, "  "+l)
		}
		return lines
	}
	task, stage, _ := b.Plan.Task(next)
	lines := []string{"  " + t.Quiet.Render("next, "+ink.Clean(stage.Title)), ""}
	lines = append(lines, ink.Headline(t.Strong, ink.Clean(cmp.Or(task.Signal, task.Title)), w, rows, 2)...)
	for _, l := range ink.Wrap(ink.Clean(task.Title), w-3) {
		lines = append(lines, "  "+l)
	}
	if number, unit := reply.Asked(task, stage); task.Do == work.Weigh || task.Do == work.Portion {
		lines = append(append(lines, ""), ink.Figured(t.Strong, number, "", t.Strong.Render(unit), "", w, rows)...)
	}
	return lines
}

func recipeDetail(t ink.Theme, r *front.RecipeItem, w, rows int) []string {
	lines := append([]string{""}, ink.Headline(t.Strong, ink.Clean(r.Name), w, rows, 2)...)
	if len(r.Problems) > 0 {
		return append(lines, "  "+t.Off.Render(ink.SignBroken+" "+quantity.Count(len(r.Problems), "problem", "problems")+" to mend"))
	}
	lines = append(lines, "  "+quantity.Count(r.Loaves, "loaf", "loaves"), "")
	for _, l := range ink.Wrap(ink.Clean(r.About), w-3) {
		lines = append(lines, "  "+t.Quiet.Render(l))
	}
	return lines
}

package aside

import (
	"cmp"
	"fmt"
	"strings"

	"bench/internal/quantity"
	"bench/internal/reply"
	"bench/internal/steps"
	"bench/internal/ui/ink"
	"bench/internal/ui/keys"
)

// View shows the ways on side by side, in h lines of w cells.
func (s Ways) View(t ink.Theme, w, h int) []string {
	place := fmt.Sprintf("%d of %d", s.item+1, s.plan.Undecided())
	lines := []string{" " + ink.Between(t.Title.Render("How to go on"), t.Quiet.Render(place)+" ", w-1), t.Line.Render(ink.Rule(w)), ""}
	help := keys.HelpLine(t, w, keys.Shown("← →", "way"), keys.Decide, keys.Says(keys.Down, "next"), keys.Says(keys.Back, "later"), keys.Aid)
	if s.plan.Undecided() == 0 {
		return append(ink.Block(lines, w, h-1), help)
	}
	d, ok := s.deviation()
	switch {
	case !ok:
		lines = append(lines, s.challenge(t, w, h)...)
		help = keys.HelpLine(t, w, keys.Says(keys.Figures, "type the figure"), keys.Says(keys.Accept, "it was read"), keys.Says(keys.Down, "next"), keys.Says(keys.Back, "later"), keys.Aid)
	default:
		lines = append(lines, ink.Warning(t, ink.Clean(d.Words), w)...)
		lines = append(lines, "")
		lines = append(lines, s.sideBySide(t, w, h)...)
	}
	if s.Word != "" {
		lines = append(append(lines, ""), ink.Warning(t, s.Word, w)...)
	}
	return append(ink.Block(lines, w, h-1), help)
}

// challenge is a warning with the figure that answers it, large while it is typed.
func (s Ways) challenge(t ink.Theme, w, h int) []string {
	u, _ := s.warning()
	lines := append(ink.Warning(t, ink.Clean(u.Words), w), "")
	for _, l := range ink.Wrap("Type "+ink.Clean(u.Ask)+", then enter: it is kept with what you typed.", w-2) {
		lines = append(lines, " "+t.Strong.Render(l))
	}
	lines = append(lines, "")
	return append(lines, ink.Figured(t.Accent, cmp.Or(s.typed, ink.Dashes(u.Figure)), ink.Dashes(u.Figure), t.Strong.Render("%"), "", w, h)...)
}

// widest keeps a way narrow enough to read as a column; its superfat is large in
// columns from which there is room for it.
const (
	widest     = 44
	widestFar  = 64
	figureFrom = 36
)

// sideBySide puts one column for each way.
func (s Ways) sideBySide(t ink.Theme, w, h int) []string {
	if len(s.ways) == 0 {
		var lines []string
		for _, l := range ink.Wrap(reply.NoWay, w-2) {
			lines = append(lines, " "+l)
		}
		return lines
	}
	rows := 1 // rows is what the longest title takes, so that the figures stand side by side.
	most, far := widest, ink.Roomy(w, h)
	if far {
		most = widestFar
	}
	each := min(most, (w-len(s.ways)+1)/len(s.ways))
	largest := 0 // largest is the height that the superfat may be drawn for; 0 is none.
	if far && each >= figureFrom {
		largest = h
	}
	var columns [][]string
	tallest := 0
	for _, way := range s.ways {
		rows = max(rows, len(ink.Wrap(ink.Clean(way.Title), each-4)))
	}
	for i, way := range s.ways {
		columns = append(columns, column(t, way, each, rows, i == s.way, largest))
		tallest = max(tallest, len(columns[i]))
	}
	for i := range columns {
		columns[i] = ink.Block(columns[i], each, tallest)
	}
	return ink.Beside(t.Line, columns...)
}

// column is one way: its title in so many rows, and what comes of it. The superfat is drawn
// as large as h lines allow; 0 is in a line.
func column(t ink.Theme, way steps.WayOn, w, rows int, here bool, h int) []string {
	sign, style := "  ", t.Strong
	if here {
		sign, style = ink.SignNow+" ", t.Accent
	}
	var lines []string
	for i, l := range ink.Wrap(ink.Clean(way.Title), w-4) {
		head := "   "
		if i == 0 {
			head = " " + style.Render(sign)
		}
		lines = append(lines, head+style.Render(l))
	}
	lines = ink.Block(lines, w, rows)
	if way.Keeps() == nil { // Nothing is known yet of what comes of it.
		return append(lines, "", "   "+t.Quiet.Render(ink.Cut(way.Until, w-4)))
	}
	lines = append(lines, "")
	if way.Outcome.Split != nil {
		lines = append(lines, splitFigures(t, way.Outcome)...)
	} else {
		lines = append(lines, figures(t, style, way.Outcome, w, h)...)
	}
	lines = append(lines, scentLines(t, way.Outcome.Scent, w)...)
	return append(append(lines, ""), asksUntil(t, way, w)...)
}

// figures are what comes of a way for a batter.
func figures(t ink.Theme, style ink.Ink, o steps.Outcome, w, h int) []string {
	rise := o.Rise.Millimetres()
	if steps.ToAnEye(o.Rise) == 0 {
		rise = 0
	}
	lines := []string{figureLine(t, "superfat", fmt.Sprintf("%.1f %%", o.Superfat.Percent))}
	if h > 0 {
		lines = append(ink.Figured(style, fmt.Sprintf("%.1f", o.Superfat.Percent), "", "%", t.Quiet.Render("  superfat"), w, h), "")
	}
	lines = append(lines, figureLine(t, "band", fmt.Sprintf("%.1f to %.1f %%", o.Superfat.Low, o.Superfat.High)))
	if o.Mended != nil {
		lines = append(lines, figureLine(t, "all", fmt.Sprintf("%.1f %% if mended", *o.Mended)))
	}
	return append(
		lines,
		figureLine(t, "lye", fmt.Sprintf("%.1f ≤ %.1f %%", o.Strength, o.Dissolves)),
		figureLine(t, "height", strings.Replace(fmt.Sprintf("%+.1f mm", rise), "+0.0 mm", "as it is", 1)),
	)
}

// splitFigures are what comes of a portion's way.
func splitFigures(t ink.Theme, o steps.Outcome) []string {
	return []string{
		figureLine(t, "height", o.Split.Height()),
		figureLine(t, "stays", o.Split.Left.Reading(quantity.Gram)+" in "+ink.Clean(o.Split.In)),
	}
}

// asksUntil says what is weighed next, and how long the way is there.
func asksUntil(t ink.Theme, way steps.WayOn, w int) []string {
	var lines []string
	if asks := way.Outcome.Asks; len(asks) > 0 {
		lines = append(lines, ink.Hang("   then", ink.Clean(strings.Join(asks, "; ")), w-1)...)
	}
	for _, l := range ink.Wrap(way.Until, w-4) {
		lines = append(lines, "   "+t.Quiet.Render(l))
	}
	return lines
}

// scentLines say how much scent there is, and of what, below it where that finds no room.
func scentLines(t ink.Theme, percent float64, w int) []string {
	line := figureLine(t, "scent", fmt.Sprintf("%.2f %%", percent))
	if of := " of a layer"; ink.Width(line+of) < w {
		return []string{line + of}
	}
	return []string{line, figureLine(t, "of layer", "")}
}

func figureLine(t ink.Theme, what, number string) string {
	return "   " + t.Quiet.Render(ink.Fit(what, 9)) + number
}

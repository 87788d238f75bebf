package home

import (
	"fmt"
	"strings"

	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/ui/ink"
)

// stickLines draws how the sticks of one design are cut, to one scale, and says
// which pieces lie in which loaf, from the end that goes to the cutter's stop.
func stickLines(t ink.Theme, p recipe.StickPlan, w int) []string {
	lines := []string{"", t.Strong.Render("Sticks of "+ink.Clean(p.Stick)) + t.Quiet.Render(fmt.Sprintf("   %s, %s",
		quantity.Count(p.Plan.Used, "stick", "sticks"), quantity.Count(p.Plan.Joins, "join", "joins")))}
	longest := quantity.Length(0)
	for _, s := range p.Plan.Sticks {
		longest = max(longest, s.Length)
	}
	const before = 18 // The number and the lot stand before a strip.
	for i, s := range p.Plan.Sticks {
		lot := "to be made"
		if !s.Fresh {
			lot = "lot " + ink.Clean(s.Lot)
		}
		lines = append(lines, fmt.Sprintf("  %2d %s ", s.N, ink.Fit(lot, before-6))+strip(p, i, longest, w-before))
	}
	for _, loaf := range p.Plan.Loaves {
		for _, row := range loaf.Rows {
			words := make([]string, len(row.Pieces))
			for i, piece := range row.Pieces {
				words[i] = fmt.Sprintf("%s %s", piece.Label(), piece.Length)
			}
			head := fmt.Sprintf("loaf %d, %s, from the stop: ", loaf.N, ink.Clean(p.Embeds[row.N-1].Embed))
			lines = append(lines, ink.Hang(" ", head+strings.Join(words, ", "), w)...)
		}
	}
	for _, show := range p.Plan.Shows {
		lines = append(lines, ink.Hang(t.Off.Render(ink.SignOff), fmt.Sprintf("a join shows in bar %d of loaf %d", show.Bar, show.Loaf), w)...)
	}
	if n := p.Plan.Unmade; n > 0 {
		lines = append(lines, ink.Hang(t.Off.Render(ink.SignOff), "no sticks for "+quantity.Count(n, "loaf", "loaves")+": no two lots go into one loaf", w)...)
	}
	return lines
}

// strip is one stick to scale in at most w cells: its pieces by name between the
// cuts, and dots for what is left over.
func strip(p recipe.StickPlan, i int, longest quantity.Length, w int) string {
	stick := p.Plan.Sticks[i]
	cells := func(l quantity.Length) int { return int(int64(l) * int64(w-2) / int64(longest)) }
	var b strings.Builder
	from := quantity.Length(0)
	for n, piece := range stick.Pieces {
		b.WriteString(map[bool]string{true: "├", false: "┼"}[n == 0])
		b.WriteString(middled(piece.Label(), cells(from+piece.Length)-cells(from)-1, "─"))
		from += piece.Length
	}
	b.WriteString("┤")
	b.WriteString(strings.Repeat("·", max(0, cells(stick.Length)-cells(from))))
	return b.String()
}

// middled sets words into the middle of a line of w cells, where they fit.
func middled(words string, w int, line string) string {
	room := w - ink.Width(words) - 2
	if room < 0 {
		return strings.Repeat(line, max(0, w))
	}
	return strings.Repeat(line, room/2) + " " + words + " " + strings.Repeat(line, room-room/2)
}

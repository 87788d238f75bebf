package ui

import (
	"strings"

	"bench/internal/quantity"
	"bench/internal/steps"
)

// loafFills tell neighbouring layers apart without colour.
var loafFills = []string{"▒", "░", "▓"}

// loaf draws the mould from the side, to scale: its layers as bands that fill
// as they are poured, and the line that the next pour goes up to.
func (b bench) loaf(t Theme, w, h int, at steps.Stage) []string {
	mould := b.plan.Mould
	if mould.Height <= 0 || len(b.plan.Layers) == 0 || h < 12 {
		return nil
	}
	rows := min(h-4, 22)
	inside := 10
	lines := []string{"", " " + t.quiet.Render(cut("the loaf, "+mould.Height.String()+" to the rim", w-2))}
	for i := range rows {
		// Row i covers the heights from low up to high above the floor.
		low := mould.Height * quantity.Length(rows-1-i) / quantity.Length(rows)
		high := mould.Height * quantity.Length(rows-i) / quantity.Length(rows)
		lines = append(lines, b.loafRow(t, w, inside, low, high, at))
	}
	return append(lines, "   "+t.line.Render("└"+rule(inside)+"┘"))
}

func (b bench) loafRow(t Theme, w, inside int, low, high quantity.Length, at steps.Stage) string {
	mid := low + (high-low)/2
	fill, label := " ", ""
	floor := quantity.Length(0)
	for i, l := range b.plan.Layers {
		if mid >= floor && mid < l.Surface {
			fill = bandFill(l, i)
		}
		here := l.Name == at.Layer
		if l.Surface >= low && l.Surface < high {
			label = l.Surface.String() + " " + clean(l.Name)
		}
		if here && !allPoured(l) && l.PourLine >= low && l.PourLine < high {
			fill, label = "╌", signNow+" pour to "+l.PourLine.String()
			label = t.accent.Render(cut(label, w-inside-7))
		}
		floor = l.Surface
	}
	return "   " + t.line.Render("│") + strings.Repeat(fill, inside) + t.line.Render("│") + " " + cut(label, w-inside-7)
}

func bandFill(l steps.Layer, i int) string {
	if allPoured(l) {
		return loafFills[i%len(loafFills)]
	}
	return " "
}

func allPoured(l steps.Layer) bool {
	for _, loaf := range l.Loaves {
		if !loaf.Poured {
			return false
		}
	}
	return len(l.Loaves) > 0
}

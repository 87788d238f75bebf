package ui

import (
	"strings"

	"bench/internal/quantity"
	"bench/internal/steps"
)

// loafFills tell neighbouring layers apart without colour.
var loafFills = []string{"▒", "░", "▓"} //nolint:gochecknoglobals // A table.

// loaf draws the mould from the side, to scale: its layers as bands that fill
// as they are poured, and the line that the next pour goes up to.
func (b bench) loaf(t Theme, w, h int, at steps.Stage) []string {
	mould := b.plan.Mould
	if mould.Height <= 0 || len(b.plan.Layers) == 0 || h < 12 {
		return nil
	}
	d := loafDrawing{t: t, layers: b.plan.Layers, at: at, room: w / 3}
	d.label = w - d.room - 6
	rows := min(h-4, 26)
	lines := []string{"", " " + t.quiet.Render(cut("the loaf, "+mould.Height.String()+" to the rim", w-2))}
	for i := range rows {
		// Row i covers the heights from low up to high above the floor.
		low := mould.Height * quantity.Length(rows-1-i) / quantity.Length(rows)
		high := mould.Height * quantity.Length(rows-i) / quantity.Length(rows)
		lines = append(lines, d.row(low, high))
	}
	return append(lines, "  "+t.line.Render("└"+rule(d.room)+"┘"))
}

// loafDrawing is what the rows of the drawing have in common.
type loafDrawing struct {
	t           Theme
	layers      []steps.Layer
	at          steps.Stage
	room, label int // room is the width inside the mould, label that beside it.
}

// row draws the heights from low up to high.
func (d loafDrawing) row(low, high quantity.Length) string {
	fill, label := strings.Repeat(" ", d.room), ""
	floor := quantity.Length(0)
	for i, l := range d.layers {
		if mid := low + (high-low)/2; allPoured(l) && mid >= floor && mid < l.Surface {
			fill = strings.Repeat(loafFills[i%len(loafFills)], d.room)
		}
		within := func(at quantity.Length) bool { return at > low && at <= high }
		switch {
		case l.Name == d.at.Layer && !allPoured(l) && within(l.PourLine):
			fill = d.t.accent.Render(strings.Repeat("─", d.room))
			label = d.t.accent.Render(cut(signNow+" "+l.PourLine.RoundTo(quantity.Millimetre/2).String()+" "+clean(l.Name), d.label))
		case within(l.Surface):
			label = cut(l.Surface.String()+" "+clean(l.Name), d.label)
			if !allPoured(l) {
				fill = d.t.line.Render(strings.Repeat("╌", d.room))
			}
		}
		floor = l.Surface
	}
	return "  " + d.t.line.Render("│") + fill + d.t.line.Render("│") + " " + label
}

func allPoured(l steps.Layer) bool {
	for _, loaf := range l.Loaves {
		if !loaf.Poured {
			return false
		}
	}
	return len(l.Loaves) > 0
}

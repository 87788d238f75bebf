package bench

import (
	"slices"

	"bench/internal/batch"
	"bench/internal/timer"
	"bench/internal/ui/ink"
)

// What stands below the loaf takes this much of a high window.
const (
	beforeFrom = 44 // beforeFrom is the height from which there is room for it.
	beforeRows = 16
	notesMost  = 5
)

// before lists the notes and the last entries below the loaf, where the window is
// high enough for both.
func (b Screen) before(t ink.Theme, w, h int, now timer.Moment) []string {
	if h < beforeFrom {
		return nil
	}
	var notes, last []string
	for _, e := range slices.Backward(batch.Standing(b.State.Entries)) {
		line := " " + ink.Cut(b.said(e, now), w-2)
		if _, ok := e.Fact.(batch.Noted); ok && len(notes) < notesMost {
			notes = append(notes, line)
		} else if !ok && len(last) < beforeRows {
			last = append(last, t.Quiet.Render(line))
		}
	}
	lines := []string{t.Line.Render(ink.Rule(w))}
	if len(notes) > 0 {
		lines = append(append(lines, " "+t.Strong.Render("Notes")), notes...)
	}
	lines = append(append(lines, " "+t.Strong.Render("Said before")), last...)
	return ink.Block(lines, w, beforeRows)
}

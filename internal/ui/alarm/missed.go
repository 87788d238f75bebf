package alarm

import (
	"slices"

	"bench/internal/quantity"
	"bench/internal/timer"
	"bench/internal/ui/ink"
	"bench/internal/watch"
)

// mostMissed keeps the batches in sight below what was missed.
const mostMissed = 6

// Missed lists what fell due before bench was opened and still waits for
// somebody, the most urgent first. A zero opened is not known yet.
func (b Board) Missed(t ink.Theme, w int, opened, now timer.Moment) []string {
	if opened.IsZero() {
		return nil
	}
	open, _ := now.Since(opened)
	list := slices.DeleteFunc(b.Timers(now), func(each watch.Timer) bool {
		return each.State(now) != timer.Due || each.Asking(now) <= open
	})
	if len(list) == 0 {
		return nil
	}
	lines := []string{"", " " + t.Strong.Render("Fell due while bench was closed")}
	for i, each := range list {
		if i == mostMissed {
			return append(lines, "   "+t.Quiet.Render(quantity.Count(len(list)-i, "more", "more")))
		}
		what, of := each.Words()
		what, when := ink.Clean(what+" · "+of), each.Say(now)
		sign := "   " + ink.Fit(Sign(each.Timer, now), 3)
		said := ink.Hang(sign, what, w-1)
		if last := &said[len(said)-1]; ink.Width(*last)+ink.Width(when)+3 <= w {
			*last = ink.Between(*last, when+" ", w)
		} else {
			said = append(said, ink.Right(when+" ", w))
		}
		lines = append(lines, said...)
	}
	return lines
}

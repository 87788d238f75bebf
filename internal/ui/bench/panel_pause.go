package bench

import (
	"fmt"
	"slices"

	"bench/internal/judge"
	"bench/internal/readback"
	"bench/internal/ui/ink"
)

// pause is what is read back at a pause point, with what came last and what
// comes next, in at most room lines. What was off is never the line that finds
// no room.
func (p panel) pause(room int) []string {
	list := readback.Of(p.b.Plan, p.task.ID)
	foot := p.lastAndNext(room - len(list))
	most := max(1, room-len(foot))
	more := ""
	if left := len(list) - most; left > 0 {
		list = slices.Clone(list)
		slices.SortStableFunc(list, func(x, y readback.Line) int { return order(x) - order(y) })
		list, more = list[:most-1], fmt.Sprintf("%d more, as asked", left+1)
	}
	var lines []string
	for _, l := range list {
		lines = append(lines, p.readLine(l))
	}
	if more != "" {
		lines = append(lines, " "+p.t.Quiet.Render("  "+more))
	}
	if len(lines)+len(foot)+1 < room {
		lines = append(lines, "")
	}
	return append(lines, foot...)
}

func order(l readback.Line) int {
	if l.Off {
		return 0
	}
	return 1
}

// readLine shows what it was before what was asked: the eye compares with the
// label on the vessel.
func (p panel) readLine(l readback.Line) string {
	sign, style := p.t.Good.Render(ink.SignDone), p.t.Strong
	if l.Off {
		sign, style = p.t.Off.Render(ink.SignOff), p.t.Off
	}
	name := min(26, max(12, p.w-38))
	line := " " + sign + " " + ink.Fit(ink.Clean(l.What), name) + style.Render(ink.Right(l.Was, 10)) + p.t.Quiet.Render("  asked "+ink.Fit(l.Asked, 8))
	if ink.Width(line)+ink.Width(l.By)+1 <= p.w {
		line += p.t.Quiet.Render(" " + ink.Clean(l.By))
	}
	return line
}

// lastAndNext restates the last fact and the next order, whole where room lines will do.
func (p panel) lastAndNext(room int) []string {
	var lines, short []string
	add := func(head, text string, style func(string) string) {
		short = append(short, " "+p.t.Quiet.Render(head)+style(ink.Cut(text, p.w-8)))
		for i, l := range ink.Wrap(text, p.w-8) {
			if i > 0 {
				head = ink.Spaces(len(head))
			}
			lines = append(lines, " "+p.t.Quiet.Render(head)+style(l))
		}
	}
	if n := len(p.b.State.Entries); n > 0 {
		add("last  ", p.b.said(p.b.State.Entries[n-1], p.now), func(s string) string { return s })
	}
	if next, ok := judge.Following(p.b.Plan, p.task.ID, p.now); ok {
		add("next  ", ink.Clean(next.Title), p.t.Strong.Render)
	}
	if len(lines) > room {
		return short
	}
	return lines
}

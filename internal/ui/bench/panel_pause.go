package bench

import (
	"fmt"
	"slices"

	"bench/internal/judge"
	"bench/internal/readback"
	"bench/internal/ui/ink"
)

// pause is what is read back at a pause point, with what came last and what
// comes next, in at most room lines. What was off, and what burns, is never the line that
// finds no room: what came last and comes next gives way to it, and then the columns do.
func (p panel) pause(room int) []string {
	list := readback.Of(p.b.Plan, p.task.ID)
	foot := p.lastAndNext(room - len(list))
	most := max(1, room-len(foot))
	more := ""
	if len(list) > most {
		list = slices.Clone(list)
		slices.SortStableFunc(list, func(x, y readback.Line) int { return order(x) - order(y) })
		must := 0
		for must < len(list) && order(list[must]) < later {
			must++
		}
		if must > most-1 {
			foot, most = nil, max(1, room)
		}
		if must > most-1 && must < len(list) || must > most {
			return p.packed(list, must, room)
		}
		if left := len(list) - most; left > 0 {
			list, more = list[:most-1], asAsked(left+1)
		}
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

func asAsked(n int) string { return fmt.Sprintf("%d more, as asked", n) }

// packed puts several on a line: all of them, or where that is too much the first ones
// that must be seen.
func (p panel) packed(list []readback.Line, must, room int) []string {
	words := func(list []readback.Line, more ...string) []string {
		items := make([]string, len(list), len(list)+1)
		for i, l := range list {
			items[i] = readWords(l)
		}
		return ink.Packed(append(items, more...), p.w-1)
	}
	lines := words(list)
	if len(lines) > room && must < len(list) {
		lines = words(list[:must], asAsked(len(list)-must))
	}
	for i, l := range lines {
		lines[i] = " " + l
	}
	return lines
}

// later is the order of what was as asked and burns nobody.
const later = 2

func order(l readback.Line) int {
	switch {
	case l.Off:
		return 0
	case l.Burns:
		return 1
	default:
		return later
	}
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

package ui

import (
	"fmt"
	"slices"
	"strings"

	"bench/internal/batch"
	"bench/internal/steps"
)

// ways shows, side by side, how to go on after a weight that was off, and the
// warnings that are to be read once. It is opened by the person and blocks
// nothing.
type ways struct {
	code  string
	plan  steps.Plan
	item  int           // item counts through the warnings first, then the deviations.
	ways  []steps.WayOn // ways are those of the deviation at hand.
	way   int
	asked bool // asked says that enter was pressed once on a warning.
	word  string
}

func newWays(b bench) ways {
	w := ways{code: b.code, plan: b.plan}
	return w.preselected()
}

// undecided counts what waits for a word.
func undecided(p steps.Plan) int { return len(p.Unread) + len(p.Deviations) }

// deviation gives the deviation at hand, or false for a warning.
func (s ways) deviation() (steps.Deviation, bool) {
	at := s.item - len(s.plan.Unread)
	if at < 0 || at >= len(s.plan.Deviations) {
		return steps.Deviation{}, false
	}
	return s.plan.Deviations[at], true
}

func (s ways) preselected() ways {
	s.ways = nil
	if d, ok := s.deviation(); ok {
		s.ways = s.plan.Ways(d)
	}
	s.way = max(0, slices.IndexFunc(s.ways, func(w steps.WayOn) bool { return w.Default }))
	s.asked = false
	return s
}

func (s ways) update(p press) (ways, action) {
	s.word = ""
	switch {
	case matches(p, keys.Back):
		return s, back{}
	case matches(p, keys.Up):
		s.item = max(0, s.item-1)
		return s.preselected(), nil
	case matches(p, keys.Down):
		s.item = min(undecided(s.plan)-1, s.item+1)
		return s.preselected(), nil
	case matches(p, keys.Left):
		s.way = max(0, s.way-1)
	case matches(p, keys.Right):
		s.way = max(0, min(len(s.ways)-1, s.way+1))
	case matches(p, keys.Decide) && !p.held:
		return s.decide(p)
	}
	return s, nil
}

// decide takes the way at hand; a warning takes a second enter, because it is
// recorded that it was read.
func (s ways) decide(p press) (ways, action) {
	var f batch.Fact
	_, ok := s.deviation()
	switch {
	case !ok && !s.asked:
		s.asked, s.word = true, "Read it, then press enter again: it is recorded as read."
		return s, nil
	case !ok:
		f = s.plan.Unread[s.item].Fact
	case len(s.ways) == 0:
		s.word = "There is nothing to choose: esc goes back to the bench."
		return s, nil
	default:
		f = s.ways[s.way].Fact
	}
	if err := s.plan.Allows(f, p.at); err != nil {
		s.word = sentence(err)
		return s, nil
	}
	return s, keep{code: s.code, fact: f}
}

func (s ways) view(t Theme, w, h int) []string {
	place := fmt.Sprintf("%d of %d", s.item+1, undecided(s.plan))
	lines := []string{" " + between(t.title.Render("How to go on"), t.quiet.Render(place)+" ", w-1), t.line.Render(rule(w)), ""}
	help := helpLine(t, w, shown("← →", "way"), keys.Decide, says(keys.Down, "next"), says(keys.Back, "later"), keys.Aid)
	if undecided(s.plan) == 0 {
		return append(block(lines, w, h-1), help)
	}
	d, ok := s.deviation()
	switch {
	case !ok:
		lines = append(lines, warning(t, clean(s.plan.Unread[s.item].Words), w)...)
		lines = append(lines, "", " "+t.quiet.Render("enter, and enter again, records that it was read"))
	default:
		lines = append(lines, warning(t, clean(d.Words), w)...)
		lines = append(lines, "")
		lines = append(lines, s.sideBySide(t, w)...)
	}
	if s.word != "" {
		lines = append(append(lines, ""), warning(t, s.word, w)...)
	}
	return append(block(lines, w, h-1), help)
}

// widest keeps a way narrow enough to read as a column.
const widest = 44

// sideBySide puts one column for each way.
func (s ways) sideBySide(t Theme, w int) []string {
	if len(s.ways) == 0 {
		var lines []string
		for _, l := range wrap("Nothing that can still be done brings the superfat back to what the recipe states. The work goes on; hold the bars until pH or free alkali has been tested.", w-2) {
			lines = append(lines, " "+l)
		}
		return lines
	}
	rows := 1 // rows is what the longest title takes, so that the figures stand side by side.
	each := min(widest, (w-len(s.ways)+1)/len(s.ways))
	var columns [][]string
	most := 0
	for _, way := range s.ways {
		rows = max(rows, len(wrap(clean(way.Title), each-4)))
	}
	for i, way := range s.ways {
		columns = append(columns, s.column(t, way, each, rows, i == s.way))
		most = max(most, len(columns[i]))
	}
	for i := range columns {
		columns[i] = block(columns[i], each, most)
	}
	return beside(t.line, columns...)
}

func (s ways) column(t Theme, way steps.WayOn, w, rows int, here bool) []string {
	sign, style := "  ", t.strong
	if here {
		sign, style = signNow+" ", t.accent
	}
	var lines []string
	for i, l := range wrap(clean(way.Title), w-4) {
		head := "   "
		if i == 0 {
			head = " " + style.Render(sign)
		}
		lines = append(lines, head+style.Render(l))
	}
	lines = block(lines, w, rows)
	o := way.Outcome
	rise := o.Rise.Millimetres()
	if toAnEye(o.Rise) == 0 {
		rise = 0
	}
	lines = append(
		lines, "",
		figureLine(t, "superfat", fmt.Sprintf("%.1f %%", o.Superfat.Percent)),
		figureLine(t, "band", fmt.Sprintf("%.1f to %.1f %%", o.Superfat.Low, o.Superfat.High)),
		figureLine(t, "height", strings.Replace(fmt.Sprintf("%+.1f mm", rise), "+0.0 mm", "as it is", 1)),
		figureLine(t, "scent", fmt.Sprintf("%.2f %%", o.Scent)),
		"",
	)
	for _, l := range wrap(way.Until, w-4) {
		lines = append(lines, "   "+t.quiet.Render(l))
	}
	return lines
}

func figureLine(t Theme, what, number string) string {
	return "   " + t.quiet.Render(fit(what, 9)) + number
}

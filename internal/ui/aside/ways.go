package aside

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/phrase"
	"bench/internal/quantity"
	"bench/internal/reply"
	"bench/internal/steps"
	"bench/internal/ui/ink"
	"bench/internal/ui/intent"
	"bench/internal/ui/keys"
)

// Ways shows, side by side, how to go on after a weight that was off, and the
// warnings that are to be answered once: a challenge, and a figure that is typed.
// It is opened by the person.
type Ways struct {
	code  string
	plan  steps.Plan
	item  int           // item counts through the deviations first, since a way may mend what a warning is about, then the warnings.
	ways  []steps.WayOn // ways are those of the deviation at hand.
	way   int
	typed string // typed answers a warning.
	Word  string
}

// NewWays opens at the first deviation that is undecided, or else at a warning.
func NewWays(code string, p steps.Plan) Ways {
	w := Ways{code: code, plan: p}
	return w.preselected()
}

// deviation gives the deviation at hand, or false for a warning.
func (s Ways) deviation() (steps.Deviation, bool) {
	if s.item >= len(s.plan.Deviations) {
		return steps.Deviation{}, false
	}
	return s.plan.Deviations[s.item], true
}

// warning gives the warning at hand, or false for a deviation.
func (s Ways) warning() (steps.Unread, bool) {
	at := s.item - len(s.plan.Deviations)
	if at < 0 || at >= len(s.plan.Unread) {
		return steps.Unread{}, false
	}
	return s.plan.Unread[at], true
}

func (s Ways) preselected() Ways {
	s.ways = nil
	if d, ok := s.deviation(); ok {
		s.ways = s.plan.Ways(d)
	}
	s.way = max(0, slices.IndexFunc(s.ways, func(w steps.WayOn) bool { return w.Default }))
	s.typed = ""
	return s
}

// Update takes a key: one that picks a way, or takes it.
func (s Ways) Update(p keys.Press) (Ways, intent.Action) {
	s.Word = ""
	if r, ok := keys.Figure(p); ok {
		return s.figure(r), nil
	}
	switch {
	case keys.Matches(p, keys.Back) && s.typed != "":
		s.typed = ""
	case keys.Matches(p, keys.Erase):
		s.typed = s.typed[:max(0, len(s.typed)-1)]
	case keys.Matches(p, keys.Back):
		return s, intent.Back{}
	case keys.Matches(p, keys.Up):
		s.item = max(0, s.item-1)
		return s.preselected(), nil
	case keys.Matches(p, keys.Down):
		s.item = min(s.plan.Undecided()-1, s.item+1)
		return s.preselected(), nil
	case keys.Matches(p, keys.Left):
		s.way = max(0, s.way-1)
	case keys.Matches(p, keys.Right):
		s.way = max(0, min(len(s.ways)-1, s.way+1))
	case keys.Matches(p, keys.Decide) && !p.Held:
		return s.decide(p)
	}
	return s, nil
}

// figure goes to the answer of a warning.
func (s Ways) figure(r rune) Ways {
	if _, ok := s.warning(); !ok {
		s.Word = "No number is asked for here."
		return s
	}
	s.typed = keys.WithFigure(s.typed, r)
	return s
}

// decide takes the way at hand, or the answer to the warning.
func (s Ways) decide(p keys.Press) (Ways, intent.Action) {
	var f batch.Fact
	u, ok := s.warning()
	switch {
	case ok:
		f, _ = judge.Respond(u, s.typed)
		s.typed = ""
	case len(s.ways) == 0:
		s.Word = "There is nothing to choose: esc goes back to the bench."
		return s, nil
	case s.ways[s.way].Look != nil:
		return s.answerLook(*s.ways[s.way].Look, p)
	default:
		f = s.ways[s.way].Fact
	}
	if err := judge.Allows(s.plan, f, p.At); err != nil {
		s.Word = phrase.Sentence(err)
		return s, nil
	}
	return s, intent.Of(reply.Keep{Code: s.code, Fact: f})
}

// answerLook weighs the vessel again, keeps what it was, or asks for the reason.
func (s Ways) answerLook(l steps.AfterLook, p keys.Press) (Ways, intent.Action) {
	if l.Kind == steps.WeighAgain {
		return s, intent.WeighPot{Vessel: l.Vessel}
	}
	act, word := reply.AnswerLook(s.code, s.plan, l, p.At)
	s.Word = word
	return s, intent.Of(act)
}

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
		columns = append(columns, s.column(t, way, each, rows, i == s.way, largest))
		tallest = max(tallest, len(columns[i]))
	}
	for i := range columns {
		columns[i] = ink.Block(columns[i], each, tallest)
	}
	return ink.Beside(t.Line, columns...)
}

func (s Ways) column(t ink.Theme, way steps.WayOn, w, rows int, here bool, h int) []string {
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
	o := way.Outcome
	if o.Split != nil {
		return append(lines, s.splitFigures(t, way, w)...)
	}
	rise := o.Rise.Millimetres()
	if steps.ToAnEye(o.Rise) == 0 {
		rise = 0
	}
	superfat := []string{figureLine(t, "superfat", fmt.Sprintf("%.1f %%", o.Superfat.Percent))}
	if h > 0 {
		superfat = append(ink.Figured(style, fmt.Sprintf("%.1f", o.Superfat.Percent), "", "%", t.Quiet.Render("  superfat"), w, h), "")
	}
	lines = append(append(lines, ""), superfat...)
	lines = append(lines, figureLine(t, "band", fmt.Sprintf("%.1f to %.1f %%", o.Superfat.Low, o.Superfat.High)))
	if o.Mended != nil {
		lines = append(lines, figureLine(t, "all", fmt.Sprintf("%.1f %% if mended", *o.Mended)))
	}
	lines = append(
		lines,
		figureLine(t, "lye", fmt.Sprintf("%.1f ≤ %.1f %%", o.Strength, o.Dissolves)),
		figureLine(t, "height", strings.Replace(fmt.Sprintf("%+.1f mm", rise), "+0.0 mm", "as it is", 1)),
		figureLine(t, "scent", fmt.Sprintf("%.2f %%", o.Scent)),
		"",
	)
	return append(lines, asksUntil(t, way, w)...)
}

// splitFigures are what comes of a portion's way.
func (s Ways) splitFigures(t ink.Theme, way steps.WayOn, w int) []string {
	o := way.Outcome
	lines := []string{
		"",
		figureLine(t, "height", o.Split.Height()),
		figureLine(t, "scent", fmt.Sprintf("%.2f %%", o.Scent)),
		figureLine(t, "stays", o.Split.Left.Reading(quantity.Gram)+" in "+ink.Clean(o.Split.In)),
		"",
	}
	return append(lines, asksUntil(t, way, w)...)
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

func figureLine(t ink.Theme, what, number string) string {
	return "   " + t.Quiet.Render(ink.Fit(what, 9)) + number
}

// Package after is the batch after the pour on the screen: answers to choose
// from, the rack of batches in cure, and their drying curves.
//
// The rule: what looks like a slip is asked about, and kept with the answer.
package after

import (
	"fmt"
	"slices"

	"github.com/charmbracelet/bubbles/key"

	"bench/internal/judge"
	"bench/internal/reply"
	"bench/internal/steps"
	"bench/internal/ui/ink"
	"bench/internal/ui/intent"
	"bench/internal/ui/keys"
	"bench/internal/work"
)

// Choices is a page of answers, each with what follows from it.
type Choices struct {
	code   string
	plan   steps.Plan
	title  string
	hint   string
	typed  string // typed is a temperature that goes with the answer.
	list   []judge.Choice
	cursor int
	loaves []int // loaves are those that a look at the gel may be said of one by one.
	loaf   int   // loaf is the one that is meant; 0 is all of them.
	Word   string
}

// NewChoices opens the answers to a task, or what may be said afterwards.
func NewChoices(code string, p steps.Plan, act intent.Choose) Choices {
	s := Choices{code: code, plan: p, typed: act.Typed}
	if act.Task == "" {
		s.title, s.hint, s.list = "About batch "+ink.Clean(code), "Kept with the batch; complaints and where bars went also when it is closed.", judge.Afterwards(p)
		return s
	}
	t, stage, _ := p.Task(act.Task)
	s.title, s.hint, s.list = t.Title, t.Hint, judge.Choices(p, act.Task, "")
	s.cursor = judge.Offered(s.list)
	if stage.Kind == work.GelStage {
		s.hint = "Common practice, no source. Gloves and goggles for anything that is touched."
		s.cursor = judge.Likely(s.list, act.Typed)
		if act.Typed != "" {
			s.title += ", " + act.Typed + " °C"
		}
		if s.loaves = p.GelUnseen(act.Task); len(s.loaves) < 2 {
			s.loaves = nil
		}
	}
	return s
}

// Update moves, and takes the answer at the cursor.
func (s Choices) Update(p keys.Press) (Choices, intent.Action) {
	s.Word = ""
	switch {
	case keys.Matches(p, keys.Back):
		return s, intent.Back{}
	case keys.Moves(p):
		s.cursor = keys.Moved(p, s.cursor, len(s.list))
	case keys.Matches(p, keys.Left) && len(s.loaves) > 0:
		s.loaf = s.beside(-1)
	case keys.Matches(p, keys.Right) && len(s.loaves) > 0:
		s.loaf = s.beside(1)
	case keys.Matches(p, keys.Take) && !p.Held && s.cursor < len(s.list) && s.list[s.cursor].Fact == nil:
		return s, intent.Back{}
	case keys.Matches(p, keys.Take) && !p.Held && s.cursor < len(s.list):
		act, word := reply.Choice(s.code, s.plan, judge.OfLoaf(s.plan, s.list[s.cursor], s.loaf), s.typed, p.At)
		s.Word = word
		return s, intent.Of(act)
	}
	return s, nil
}

// beside gives the loaf next to the one that is meant; all of them stand before the first
// and after the last.
func (s Choices) beside(step int) int {
	all := append([]int{0}, s.loaves...)
	return all[(slices.Index(all, s.loaf)+step+len(all))%len(all)]
}

// of says which loaves are meant, or "" where there is no choice.
func (s Choices) of() string {
	switch {
	case len(s.loaves) == 0:
		return ""
	case s.loaf > 0:
		return fmt.Sprintf("loaf %d only", s.loaf)
	case len(s.loaves) < s.plan.Loaves:
		return "all the others"
	}
	return fmt.Sprintf("all %d loaves", len(s.loaves))
}

// heading is the question, with which loaves are meant.
func (s Choices) heading() string {
	if of := s.of(); of != "" {
		return s.title + ": " + of
	}
	return s.title
}

// keys are those that work here.
func (s Choices) keys() []key.Binding {
	list := []key.Binding{keys.Shown("↑ ↓", "choose")}
	if len(s.loaves) > 0 {
		list = append(list, keys.Shown("← →", "loaf"))
	}
	return append(list, keys.Take, keys.Back, keys.Aid)
}

// View lists the answers, each with all of its words: one reads before one
// chooses. Those that find no room are counted, and the arrows lead to them.
func (s Choices) View(t ink.Theme, w, h int) []string {
	lines := []string{" " + t.Title.Render(ink.Cut(ink.Clean(s.heading()), w-2)), t.Line.Render(ink.Rule(w)), ""}
	for _, l := range ink.Wrap(ink.Clean(s.hint), w-2) {
		lines = append(lines, " "+t.Quiet.Render(l))
	}
	var word []string
	if s.Word != "" {
		word = append([]string{""}, ink.Warning(t, s.Word, w)...)
	}
	room := h - 1 - len(lines) - len(word)
	lines = append(append(lines, s.body(t, w, room)...), word...)
	return append(ink.Block(lines, w, h-1), keys.HelpLine(t, w, s.keys()...))
}

// body are the answers, and where there is room the one at the cursor large beside
// them.
func (s Choices) body(t ink.Theme, w, room int) []string {
	return ink.Pair(t.Line, w, room, func(w int) []string {
		answers, at := s.answers(t, w)
		if len(answers) < room {
			return append([]string{""}, answers...)
		}
		return ink.Scrolled(t, answers, at, room)
	}, func(w int) []string { return s.chosen(t, w, room) })
}

// chosen is the answer at the cursor, to be read from afar.
func (s Choices) chosen(t ink.Theme, w, room int) []string {
	if s.cursor >= len(s.list) {
		return nil
	}
	c := s.list[s.cursor]
	lines := append([]string{""}, ink.Headline(t.Strong, ink.Clean(c.Title), w, room, 3)...)
	for _, l := range ink.Wrap(ink.Clean(c.Title), w-3) {
		lines = append(lines, "  "+t.Strong.Render(l))
	}
	lines = append(lines, "")
	for _, l := range ink.Wrap(ink.Clean(c.Why), w-3) {
		lines = append(lines, "  "+l)
	}
	return lines
}

// answers gives the lines of all answers, and which of them is the middle of the
// one at the cursor.
func (s Choices) answers(t ink.Theme, w int) (lines []string, at int) {
	for i, c := range s.list {
		sign, style := " ", ink.Ink{}
		if i == s.cursor {
			sign, style = t.Accent.Render(ink.SignNow), t.Strong
		}
		from := len(lines)
		for _, l := range ink.Wrap(ink.Clean(c.Title), w-5) {
			lines = append(lines, " "+sign+" "+style.Render(l))
			sign = " "
		}
		for _, l := range ink.Wrap(ink.Clean(c.Why), w-8) {
			lines = append(lines, "     "+t.Quiet.Render(l))
		}
		if i == s.cursor {
			at = (from + len(lines)) / 2
		}
	}
	return lines, at
}

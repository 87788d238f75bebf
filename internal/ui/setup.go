package ui

import (
	"fmt"
	"slices"
	"strconv"

	"bench/internal/batch"
	"bench/internal/steps"

	"github.com/charmbracelet/bubbles/key"
)

const (
	maxLoaves = 99
	sheetPage = 14 // sheetPage is how far a page goes, whatever the window.

	setupFrame = 7 // setupFrame is the lines above and below the sheet.
)

// setup asks for the loaves and shows the worked plan before anything begins.
type setup struct {
	item     RecipeItem
	loaves   int
	typed    bool // typed says that the next figure goes on with the number.
	control  control
	problems []string
	plan     steps.Plan
	sure     [][]string // sure says of each batter how sure its superfat is; too slow for each view.
	top      int        // top is the first line of the sheet in sight.
	word     string
}

func newSetup(item RecipeItem) setup {
	return setup{item: item}.sized(max(1, item.Loaves))
}

// sized works the plan out for so many loaves.
func (s setup) sized(loaves int) setup {
	s.loaves = loaves
	s.control, s.problems, s.plan = control{}, nil, steps.Plan{}
	if loaves < 1 {
		s.problems = []string{"type how many loaves"}
		return s
	}
	s.control, s.problems = s.item.Resolve(loaves)
	if len(s.problems) == 0 {
		s.plan = steps.Of(batch.State{Control: s.control})
		s.sure = sureWords(s.plan)
	}
	return s
}

func (s setup) update(p press) (setup, action) {
	s.word = ""
	if r, ok := figure(p); ok && r != '.' {
		return s.figure(r), nil
	}
	switch {
	case matches(p, keys.Back):
		return s, back{}
	case matches(p, keys.Start):
		return s.start(p)
	case matches(p, keys.Erase):
		s.typed = true
		return s.sized(s.loaves / 10), nil
	case matches(p, keys.PageUp):
		s.top = max(0, s.top-sheetPage)
	case matches(p, keys.PageDown):
		s.top += sheetPage
	case matches(p, keys.Left):
		s.typed = false
		return s.sized(max(1, s.loaves-1)), nil
	case matches(p, keys.Right):
		s.typed = false
		return s.sized(min(maxLoaves, s.loaves+1)), nil
	case matches(p, keys.Up):
		s.top = max(0, s.top-1)
	case matches(p, keys.Down):
		s.top++
	}
	return s, nil
}

// figure changes the loaves at once, so that the sheet below is never another
// number's.
func (s setup) figure(r rune) setup {
	n, _ := strconv.Atoi(string(r))
	if s.typed && s.loaves*10+n <= maxLoaves {
		n += s.loaves * 10
	}
	s.typed = true
	return s.sized(n)
}

// start begins the batch. A key that is held from the screen before begins
// nothing.
func (s setup) start(p press) (setup, action) {
	switch {
	case p.held:
		s.word = "Let the key go, look the plan over, then press enter."
	case len(s.problems) > 0:
		s.word = "It cannot be started like this: " + s.problems[0] + "."
	default:
		return s, start{s.control}
	}
	return s, nil
}

// within keeps the top of the sheet where there are lines below it.
func (s setup) within(t Theme, w, rows int) setup {
	s.top = min(s.top, max(0, len(s.sheet(t, w-2))-(rows-setupFrame)))
	return s
}

func (s setup) help() []key.Binding {
	begin := keys.Start
	if len(s.problems) > 0 {
		begin = off(keys.Start, "not like this")
	}
	return []key.Binding{
		begin, shown("0-9 ← →", "loaves"), shown("↑ ↓", "read on"), keys.Back, keys.Aid, keys.Keys,
	}
}

func (s setup) view(t Theme, w, rows int) []string {
	head := []string{
		" " + between(t.title.Render(cut(clean(s.item.Name), w/2)), t.quiet.Render(cut(clean(s.item.File), w/3))+" ", w-1),
		t.line.Render(rule(w)),
		" " + t.quiet.Render("loaves ") + t.accent.Render(signNow+" "+fit(s.number(), 3)) + " " + s.summary(t, w-16),
		t.line.Render(rule(w)),
	}
	body := s.sheet(t, w-2)
	words := s.words(t, w)
	room := rows - setupFrame - (len(words) - 1)
	top := min(s.top, max(0, len(body)-room))
	shown := make([]string, 0, room)
	for _, l := range body[top:min(len(body), top+room)] {
		shown = append(shown, " "+l)
	}
	more := ""
	if left := len(body) - top - room; left > 0 {
		more = fmt.Sprintf(" ↓ %d more ", left)
	}
	foot := []string{t.line.Render(rule(w-width(more)-2)) + t.quiet.Render(more) + t.line.Render(rule(2))}
	return slices.Concat(head, block(shown, w, room), foot, words, []string{helpLine(t, w, s.help()...)})
}

// words are a word, whole, or an empty line where it would stand.
func (s setup) words(t Theme, w int) []string {
	if s.word == "" {
		return []string{""}
	}
	return warning(t, clean(s.word), w)
}

func (s setup) number() string {
	if s.loaves < 1 {
		return "_"
	}
	return strconv.Itoa(s.loaves)
}

func (s setup) summary(t Theme, w int) string {
	if len(s.problems) > 0 {
		return t.off.Render(cut(signOff+" "+clean(s.problems[0]), w))
	}
	m := s.plan.Mould
	return cut(fmt.Sprintf("oils %s g   mould %s, %.0f ml to the rim", s.plan.Oils.At(gram), clean(m.Name), m.Capacity().Millilitres()), w)
}

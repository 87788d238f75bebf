package home

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"bench/internal/batch"
	"bench/internal/front"
	"bench/internal/recipe"
	"bench/internal/reply"
	"bench/internal/steps"
	"bench/internal/ui/ink"
	"bench/internal/ui/intent"
	"bench/internal/ui/keys"
	"bench/internal/ui/loaf"
	"bench/internal/uses"

	"github.com/charmbracelet/bubbles/key"
)

const (
	setupFrame = 7 // setupFrame is the lines above and below the sheet.
)

// Setup asks for the loaves and shows the worked plan before anything begins.
type Setup struct {
	item     front.RecipeItem
	loaves   int
	typed    bool // typed says that the next figure goes on with the number.
	control  recipe.Control
	problems []string
	plan     steps.Plan
	beside   []uses.Occupied // beside are the vessels and moulds that hold something of batches under way.
	sure     [][]string      // sure says of each batter how sure its superfat is; too slow for each view.
	picture  *loaf.Picture
	top      int // top is the first line of the sheet in sight.
	Word     string
}

// NewSetup plans a recipe for as many loaves as it usually makes, beside what the
// batches under way have.
func NewSetup(item front.RecipeItem, beside []uses.Occupied) Setup {
	return Setup{item: item, beside: beside, picture: new(loaf.Picture)}.sized(max(1, item.Loaves))
}

// sized works the plan out for so many loaves.
func (s Setup) sized(loaves int) Setup {
	s.loaves = loaves
	s.control, s.problems, s.plan = recipe.Control{}, nil, steps.Plan{}
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

// Update takes a key: one that changes the loaves, turns pages or starts the batch.
func (s Setup) Update(p keys.Press) (Setup, intent.Action) {
	s.Word = ""
	if r, ok := keys.Figure(p); ok && r != '.' {
		return s.figure(r), nil
	}
	switch {
	case keys.Matches(p, keys.Back):
		return s, intent.Back{}
	case keys.Matches(p, keys.Face):
		return s, intent.Overlay{Page: intent.PageFace}
	case keys.Matches(p, keys.Start):
		return s.start(p)
	case keys.Matches(p, keys.Erase):
		s.typed = true
		return s.sized(s.loaves / 10), nil
	case keys.Moves(p):
		s.top = keys.Moved(p, s.top, math.MaxInt) // How long it is depends on the window.
	case keys.Matches(p, keys.Tick):
		s.top += keys.PageLines
	case keys.Matches(p, keys.Left):
		s.typed = false
		return s.sized(max(1, s.loaves-1)), nil
	case keys.Matches(p, keys.Right):
		s.typed = false
		return s.sized(min(reply.MaxLoaves, s.loaves+1)), nil
	}
	return s, nil
}

// figure changes the loaves at once, so that the sheet below is never another
// number's.
func (s Setup) figure(r rune) Setup {
	n, _ := strconv.Atoi(string(r))
	if s.typed && s.loaves*10+n <= reply.MaxLoaves {
		n += s.loaves * 10
	}
	s.typed = true
	return s.sized(n)
}

// start begins the batch. A key that is held from the screen before begins
// nothing.
func (s Setup) start(p keys.Press) (Setup, intent.Action) {
	switch {
	case p.Held:
		s.Word = "Let the key go, look the plan over, then press enter."
	case len(s.problems) > 0:
		s.Word = "It cannot be started like this: " + s.problems[0] + "."
	default:
		return s, intent.Start{Control: s.control}
	}
	return s, nil
}

// Within keeps the top of the sheet where there are lines below it.
func (s Setup) Within(t ink.Theme, w, rows int) Setup {
	s.top = min(s.top, max(0, len(s.sheet(t, w-2-faceBeside(w)))-(rows-setupFrame)))
	return s
}

func (s Setup) help() []key.Binding {
	begin := keys.Start
	if len(s.problems) > 0 {
		begin = keys.Off(keys.Start, "not like this")
	}
	return []key.Binding{
		begin, keys.Shown("0-9 ← →", "loaves"), keys.Shown("↑ ↓", "read on"), keys.Back, keys.Aid, keys.Keys, keys.Face,
	}
}

// View is the worked plan in rows lines of w cells.
func (s Setup) View(t ink.Theme, w, rows int) []string {
	head := []string{
		" " + ink.Between(t.Title.Render(ink.Cut(ink.Clean(s.item.Name), w/2)), t.Quiet.Render(ink.Cut(ink.Clean(s.item.File), w/3))+" ", w-1),
		t.Line.Render(ink.Rule(w)),
		" " + t.Quiet.Render("loaves ") + t.Accent.Render(ink.SignNow+" "+ink.Fit(s.number(), 3)) + " " + s.summary(t, w-16),
		t.Line.Render(ink.Rule(w)),
	}
	face := faceBeside(w)
	body := s.sheet(t, w-2-face)
	words := s.Words(t, w)
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
	foot := []string{t.Line.Render(ink.Rule(w-ink.Width(more)-2)) + t.Quiet.Render(more) + t.Line.Render(ink.Rule(2))}
	columns := ink.Block(shown, w-face, room)
	if face > 0 {
		columns = ink.Beside(t.Line, ink.Block(shown, w-face, room), ink.Block(s.face(t, face-1, room), face-1, room))
	}
	return slices.Concat(head, columns, foot, words, []string{keys.HelpLine(t, w, s.help()...)})
}

// Words are a word, whole, or an empty line where it would stand.
func (s Setup) Words(t ink.Theme, w int) []string {
	if s.Word == "" {
		return []string{""}
	}
	return ink.Warning(t, ink.Clean(s.Word), w)
}

func (s Setup) number() string {
	if s.loaves < 1 {
		return "_"
	}
	return strconv.Itoa(s.loaves)
}

func (s Setup) summary(t ink.Theme, w int) string {
	if len(s.problems) > 0 {
		return t.Off.Render(ink.Cut(ink.SignOff+" "+ink.Clean(s.problems[0]), w))
	}
	m := s.plan.Mould
	return ink.Cut(fmt.Sprintf("oils %s g   mould %s, %.0f ml to the rim", s.plan.Oils.At(gram), ink.Clean(m.Name), m.Capacity().Millilitres()), w)
}

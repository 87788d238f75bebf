package after

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"bench/internal/curing"
	"bench/internal/front"
	"bench/internal/quantity"
	"bench/internal/reply"
	"bench/internal/steps"
	"bench/internal/timer"
	"bench/internal/ui/ink"
	"bench/internal/ui/intent"
	"bench/internal/ui/keys"
)

// Rack is the page of batches in cure: those that need something on top, then by
// how long they still have to go; below them those that are closed, the newest. Of what
// was looked for it shows what was found, those that are not cut yet, too.
type Rack struct {
	At      *time.Location
	Loading bool
	Writing bool // Writing says that keys are text, to look for batches by.
	Word    string
	err     error
	cured   []shelf           // cured are all the batches in cure.
	uncut   []front.UnderWay  // uncut are all those that have no bars yet.
	open    []shelf           // open are those in cure that are shown.
	before  []front.BatchItem // before are those without bars that are shown.
	past    front.Past
	since   map[string]string // since says what opened after the release of those.
	line    keys.Line
	cursor  int
}

// shelf is one batch in cure.
type shelf struct {
	front.UnderWay
	cure  curing.Curing
	needs bool   // needs says that something is to be done now.
	next  string // next says what that is, or what comes.
	way   string // way says through which batches it has what was looked for.
}

// NewRack takes the batches under way; those that are closed follow.
func NewRack(batches []front.UnderWay, now timer.Moment, at *time.Location) Rack {
	r := Rack{At: at, Loading: true}
	for _, b := range batches {
		c := b.Plan.Curing()
		if b.State.Ended() {
			continue
		}
		if c.Cut.IsZero() {
			r.uncut = append(r.uncut, b)
			continue
		}
		s := shelf{UnderWay: b, cure: c}
		s.needs, s.next = needs(b, now)
		r.cured = append(r.cured, s)
	}
	slices.SortStableFunc(r.cured, func(a, b shelf) int {
		if a.needs != b.needs {
			if a.needs {
				return -1
			}
			return 1
		}
		return a.cure.Cut.Wall.Add(a.cure.Rules.Usual).Compare(b.cure.Cut.Wall.Add(b.cure.Rules.Usual))
	})
	r.open = r.cured
	return r
}

// needs says what a batch asks for now, or which day comes next.
func needs(b front.UnderWay, now timer.Moment) (bool, string) {
	if n := len(b.Plan.Since()); n > 0 {
		return true, sinceWords(n, b.Plan.Curing().Gone)
	}
	if task, ok := b.Plan.Next(now); ok {
		t, _, _ := b.Plan.Task(task)
		return true, t.Title
	}
	return false, reply.ComesNext(b, now)
}

// sinceWords says that warnings opened after the release, and how many bars are out.
func sinceWords(n, out int) string {
	words := quantity.Count(n, "warning", "warnings") + " opened after the release: hold what is left, or let it stand"
	if out > 0 {
		words += "; " + quantity.Count(out, "bar is", "bars are") + " out already"
	}
	return words
}

// Loaded takes the closed batches that were read.
func (r Rack) Loaded(past front.Past, err error) Rack {
	r.Loading, r.past, r.err = false, past, err
	r.since = map[string]string{}
	for _, b := range past.Batches {
		if plan := steps.Of(b.State); len(plan.Since()) > 0 {
			r.since[b.Code] = sinceWords(len(plan.Since()), plan.Curing().Gone)
		}
	}
	if past.Words == "" || err != nil {
		return r
	}
	r.cursor, r.open = 0, nil
	for _, s := range r.cured {
		if slices.Contains(past.UnderWay, s.Code) {
			s.way = past.Way(s.Code)
			r.open = append(r.open, s)
		}
	}
	for _, b := range r.uncut {
		if slices.Contains(past.UnderWay, b.Code) {
			r.before = append(r.before, b.BatchItem)
		}
	}
	return r
}

// above gives how many rows stand above those that are closed.
func (r Rack) above() int { return len(r.open) + len(r.before) }

func (r Rack) rows() int { return r.above() + len(r.past.Batches) }

// chosen gives the batch at the cursor.
func (r Rack) chosen() (front.BatchItem, bool) {
	switch {
	case r.cursor < len(r.open):
		return r.open[r.cursor].BatchItem, true
	case r.cursor < r.above():
		return r.before[r.cursor-len(r.open)], true
	case r.cursor < r.rows():
		return r.past.Batches[r.cursor-r.above()], true
	}
	return front.BatchItem{}, false
}

// Update moves, and opens the batch at the cursor.
func (r Rack) Update(p keys.Press) (Rack, intent.Action) {
	r.Word = ""
	if r.Writing {
		return r.write(p)
	}
	switch {
	case keys.Matches(p, keys.Find):
		r.Writing, r.line = true, keys.Line{}.Insert(r.past.Words)
	case keys.Moves(p):
		r.cursor = keys.Moved(p, r.cursor, r.rows())
	case keys.Matches(p, keys.Back) && !p.Held && r.past.Words != "":
		return r, intent.Rack{}
	case keys.Matches(p, keys.Back) && !p.Held:
		return r, intent.Back{}
	case keys.Matches(p, keys.Open) && !p.Held:
		b, ok := r.chosen()
		switch {
		case ok && b.HeldBy != "":
			r.Word = ink.Clean(b.HeldBy)
		case ok:
			return r, intent.Open{Code: b.Code}
		}
	}
	return r, nil
}

// View lists the batches, and draws the curve of the one at the cursor.
func (r Rack) View(t ink.Theme, w, rows int, now timer.Moment) []string {
	head := []string{
		" " + ink.Between(t.Title.Render("Curing rack"), t.Quiet.Render(r.count())+" ", w-1),
		t.Line.Render(ink.Rule(w)),
	}
	foot := slices.Concat(r.Words(t, w), []string{r.help(t, w)})
	room := rows - len(head) - len(foot)
	detail := r.detail(t, w, max(0, room*3/5), now)
	list, at := r.list(t, w, now)
	from, to := ink.Window(len(list), at, room-len(detail))
	return slices.Concat(head, ink.Block(list[from:to], w, room-len(detail)), detail, foot)
}

// count says how many batches are in cure; one whose bars are released is not.
func (r Rack) count() string {
	released := 0
	for _, s := range r.cured {
		if out, _, _ := s.State.Verdict(); out {
			released++
		}
	}
	words := quantity.Count(len(r.cured)-released, "batch", "batches") + " in cure"
	if released > 0 {
		words += fmt.Sprintf(", %d released", released)
	}
	return words
}

func (r Rack) help(t ink.Theme, w int) string {
	if r.Writing {
		return keys.HelpLine(t, w, keys.Says(keys.Confirm, "find"), keys.Back, keys.AidAnywhere)
	}
	return keys.HelpLine(t, w, keys.Shown("↑ ↓", "choose"), keys.Says(keys.Open, "to the bench"), keys.Find, keys.Back, keys.Aid, keys.Keys)
}

// Words are a word, what is being looked for, or what could not be read.
func (r Rack) Words(t ink.Theme, w int) []string {
	if r.Word != "" {
		return ink.Warning(t, r.Word, w)
	}
	if r.Writing {
		const ask = " Batches with these in code, recipe, material, lot or note:"
		return []string{t.Quiet.Render(ink.Cut(ask, w-1)), " " + t.Accent.Render(ink.SignNow) + " " + r.line.View(t, w-4)}
	}
	if r.err != nil {
		return ink.Warning(t, "Not all could be read: "+ink.Clean(strings.ReplaceAll(r.err.Error(), "\n", "; ")), w)
	}
	return nil
}

func (r Rack) list(t ink.Theme, w int, now timer.Moment) (lines []string, at int) {
	if r.past.Words != "" {
		lines = append(lines, r.headline(t, w, "In cure"))
	}
	switch {
	case len(r.cured) == 0:
		lines = append(lines, "   "+t.Quiet.Render("no batch is in cure: it begins with the cut"))
	case len(r.open) == 0:
		lines = append(lines, "   "+t.Quiet.Render("none"))
	}
	for i, s := range r.open {
		if i == r.cursor {
			at = len(lines)
		}
		lines = append(lines, s.lines(t, w, i == r.cursor, now)...)
	}
	before, in := r.beforeLines(t, w)
	past, over := r.pastLines(t, w)
	switch {
	case r.cursor >= r.above():
		at = len(lines) + len(before) + over
	case r.cursor >= len(r.open):
		at = len(lines) + in
	}
	return slices.Concat(lines, before, past), at
}

// lines are one batch: its days gone and to go, its bars, and what it needs, below them where
// that finds no room beside them.
func (s shelf) lines(t ink.Theme, w int, chosen bool, now timer.Moment) []string {
	gone, _ := s.cure.Dry(now)
	day := int(gone.Hours() / 24)
	left := int(s.cure.Rules.Usual.Hours()/24) - day
	words := fmt.Sprintf("day %2d  ", day)
	if left > 0 {
		words += fmt.Sprintf("%2d to go", left)
	} else {
		words += "past usual,"
	}
	sign := ink.SignLater
	if s.needs {
		sign = ink.SignOff
	}
	if _, held, _ := s.State.Verdict(); held {
		words += " HELD"
	}
	words = whole(words, 16) + " " + whole(s.bars(), 8)
	next := also(s.way, s.next)
	if nextAt+ink.Width(words)+ink.Width(next) < w {
		return []string{row(t, w, chosen, sign, s.BatchItem, words+next)}
	}
	list := []string{row(t, w, chosen, sign, s.BatchItem, words)}
	for _, l := range ink.Wrap(ink.Clean(next), w-nextAt-1) {
		list = append(list, ink.Spaces(nextAt)+l)
	}
	return list
}

// bars says how many were cut, or once some went how many are left.
func (s shelf) bars() string {
	if s.cure.Gone == 0 {
		return fmt.Sprintf("%d bars ", s.cure.Bars)
	}
	return fmt.Sprintf("%d of %d bars left ", max(0, s.cure.Left()), s.cure.Bars)
}

// nextAt is where what is said of a batch begins, behind its code and its name.
const nextAt = 35

// also puts through which batches one is found before what else is said of it.
func also(way, words string) string {
	if way == "" {
		return words
	}
	return way + ", " + words
}

// whole fills text up to so many cells, and cuts none of it off.
func whole(text string, w int) string { return ink.Fit(text, max(w, ink.Width(text))) }

func row(t ink.Theme, w int, chosen bool, sign string, b front.BatchItem, words string) string {
	name := ink.Fit(ink.Clean(b.Code), 8) + "  " + ink.Fit(ink.Clean(b.State.Control.Recipe.Name), 18) + "  "
	if !chosen {
		return ink.Cut("   "+sign+" "+name+ink.Clean(words), w-1)
	}
	return " " + t.Accent.Render(ink.SignNow) + " " + sign + " " + t.Strong.Render(name) + ink.Cut(ink.Clean(words), w-6-ink.Width(name))
}

// detail draws the curve of the batch at the cursor, with its words.
func (r Rack) detail(t ink.Theme, w, h int, now timer.Moment) []string {
	if r.cursor >= len(r.open) || h < 6 {
		return nil
	}
	s := r.open[r.cursor]
	return append([]string{t.Line.Render(ink.Rule(w))}, Panel(t, s.Plan, w, h-1, now, r.At)...)
}

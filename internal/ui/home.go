package ui

import (
	"errors"
	"slices"
	"time"

	"bench/internal/batch"
	"bench/internal/steps"
	"bench/internal/timer"

	"github.com/charmbracelet/bubbles/key"
)

// home is the first screen: the batches under way, and the recipes.
type home struct {
	batches []underWay
	recipes []RecipeItem
	cursor  int // cursor counts through batches, then recipes.
	loading bool
	err     error
	word    string
	folder  string
	at      *time.Location
}

// underWay is a batch with the plan that its facts lead to.
type underWay struct {
	BatchItem
	plan steps.Plan
}

func planned(b BatchItem) underWay { return underWay{b, steps.Of(b.State)} }

// loaded takes what was read. The cursor stays on what it was on.
func (h home) loaded(msg loadedMsg) home {
	h.loading = false
	h.err = msg.err
	h.batches = nil
	for _, b := range msg.batches {
		h.batches = append(h.batches, planned(b))
	}
	h.recipes = msg.recipes
	h.cursor = min(h.cursor, max(0, h.rows()-1))
	return h
}

// with puts a batch in its place, or adds it.
func (h home) with(b BatchItem) home {
	h.batches = slices.Clone(h.batches)
	for i := range h.batches {
		if h.batches[i].Code == b.Code {
			h.batches[i] = planned(b)
			return h
		}
	}
	h.batches = append(h.batches, planned(b))
	return h
}

// entered applies an entry to the batch it belongs to.
func (h home) entered(code string, e batch.Entry) home {
	for _, b := range h.batches {
		if b.Code == code {
			b.State = b.State.Apply(e)
			return h.with(b.BatchItem)
		}
	}
	return h
}

// after gives the next batch under way that this bench may write.
func (h home) after(code string) (string, bool) {
	at := slices.IndexFunc(h.batches, func(b underWay) bool { return b.Code == code })
	for i := range h.batches {
		b := h.batches[(at+1+i)%len(h.batches)]
		if b.Code != code && b.HeldBy == "" && !b.State.Closed() {
			return b.Code, true
		}
	}
	return "", false
}

func (h home) rows() int { return len(h.batches) + len(h.recipes) }

// chosen gives what the cursor is on: a batch, a recipe, or neither.
func (h home) chosen() (*underWay, *RecipeItem) {
	switch i := h.cursor - len(h.batches); {
	case h.cursor < len(h.batches):
		return &h.batches[h.cursor], nil
	case i < len(h.recipes):
		return nil, &h.recipes[i]
	}
	return nil, nil
}

func (h home) update(p press) (home, action) {
	h.word = ""
	switch {
	case matches(p, keys.Up):
		h.cursor = max(0, h.cursor-1)
	case matches(p, keys.Down):
		h.cursor = min(max(0, h.rows()-1), h.cursor+1)
	case matches(p, keys.Open):
		if p.held || h.loading {
			return h, nil
		}
		return h.open()
	}
	return h, nil
}

func (h home) open() (home, action) {
	b, r := h.chosen()
	switch {
	case b != nil && b.HeldBy != "":
		h.word = clean(b.HeldBy)
	case b != nil:
		return h, open{code: b.Code}
	case r != nil && len(r.Problems) > 0:
		h.word = "This recipe cannot be started until its problems are mended: bench check says all of them."
	case r != nil:
		return h, prepare{*r}
	}
	return h, nil
}

func (h home) help() []key.Binding {
	b, r := h.chosen()
	does := keys.Open
	switch {
	case b != nil && b.HeldBy != "":
		does = off(keys.Open, "in use")
	case b != nil:
		does = says(keys.Open, "go on")
	case r != nil && len(r.Problems) > 0:
		does = off(keys.Open, "has problems")
	case r != nil:
		does = says(keys.Open, "set up")
	}
	return []key.Binding{shown("↑ ↓", "choose"), does, keys.Aid, keys.Keys, keys.Quit}
}

// view lists what there is; h.cursor stays in sight.
func (h home) view(t Theme, w, rows int, now timer.Moment) []string {
	head := []string{
		" " + between(t.title.Render("bench"), t.quiet.Render(cut(clean(h.folder), w-10))+" ", w-1),
		t.line.Render(rule(w)),
	}
	foot := []string{t.line.Render(rule(w)), h.wordLine(t, w), helpLine(t, w, h.help()...)}
	body, at := h.list(t, w, now)
	room := rows - len(head) - len(foot)
	from, to := window(len(body), at, room)
	return slices.Concat(head, block(body[from:to], w, room), foot)
}

func (h home) wordLine(t Theme, w int) string {
	if h.word != "" {
		return " " + t.off.Render(cut(signOff+" "+h.word, w-2))
	}
	if _, r := h.chosen(); r != nil {
		return " " + t.quiet.Render(cut(clean(r.File), w-2))
	}
	return ""
}

// list gives all lines, and which of them the cursor is on.
func (h home) list(t Theme, w int, now timer.Moment) (lines []string, at int) {
	lines = []string{"", " " + t.strong.Render("Under way")}
	if len(h.batches) == 0 {
		lines = append(lines, "   "+t.quiet.Render(h.none()))
	}
	for i, b := range h.batches {
		if i == h.cursor {
			at = len(lines) + 1
		}
		lines = append(lines, b.lines(t, w, i == h.cursor, now, h.at)...)
	}
	lines = append(lines, "", " "+t.strong.Render("Recipes"))
	for i, r := range h.recipes {
		chosen := i+len(h.batches) == h.cursor
		if chosen {
			at = len(lines) + 1
		}
		lines = append(lines, r.lines(t, w, chosen)...)
	}
	if h.err != nil {
		for _, l := range wrap("Not all could be read: "+clean(joined(h.err)), w-4) {
			lines = append(lines, " "+t.off.Render(signOff)+" "+l)
		}
	}
	return lines, at
}

func (h home) none() string {
	if h.loading {
		return "reading…"
	}
	return "no batch; choose a recipe to begin one"
}

// joined puts the errors of a join on one line.
func joined(err error) string {
	var many interface{ Unwrap() []error }
	if !errors.As(err, &many) {
		return err.Error()
	}
	text := ""
	for i, e := range many.Unwrap() {
		if i > 0 {
			text += "; "
		}
		text += e.Error()
	}
	return text
}

func (b underWay) lines(t Theme, w int, chosen bool, now timer.Moment, at *time.Location) []string {
	name := fit(clean(b.plan.Recipe), 24) + "  " + fit(clean(b.Code), 8) + "  "
	where := b.where(now)
	if b.HeldBy != "" {
		where = signOff + " " + clean(b.HeldBy)
	}
	last := ""
	if n := len(b.State.Entries); n > 0 {
		last = said(b.State.Entries[n-1], b.State, now, at)
	}
	return []string{
		entryLine(t, chosen, name, clean(where), w),
		"     " + t.quiet.Render(cut(last, w-6)),
	}
}

// where says what is next, or that all is done.
func (b underWay) where(now timer.Moment) string {
	task, ok := b.plan.Next(now)
	if !ok {
		return "nothing left to do now"
	}
	next, stage, _ := b.plan.Task(task)
	return stage.Title + ": " + next.Title
}

func (r RecipeItem) lines(t Theme, w int, chosen bool) []string {
	name := fit(clean(r.Name), 24) + "  "
	if len(r.Problems) > 0 {
		return []string{entryLine(t, chosen, name, signBroken+" "+clean(r.Problems[0]), w)}
	}
	whose := "your own"
	if r.BuiltIn {
		whose = "built in"
	}
	lines := []string{entryLine(t, chosen, name, fit(count(r.Loaves, "loaf", "loaves"), 10)+whose, w)}
	if chosen && r.About != "" {
		for _, l := range wrap(clean(r.About), w-8) {
			lines = append(lines, "     "+t.quiet.Render(l))
		}
	}
	return lines
}

// entryLine marks the chosen entry by a sign and by weight.
func entryLine(t Theme, chosen bool, name, rest string, w int) string {
	if !chosen {
		return cut("   "+name+rest, w-1)
	}
	return " " + t.accent.Render(signNow) + " " + t.strong.Render(name) + cut(rest, w-4-width(name))
}

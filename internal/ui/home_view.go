package ui

import (
	"errors"
	"slices"
	"strings"
	"time"

	"bench/internal/timer"

	"github.com/charmbracelet/bubbles/key"
)

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
	foot := slices.Concat([]string{t.line.Render(rule(w))}, h.words(t, w), []string{helpLine(t, w, h.help()...)})
	body, at := h.list(t, w, now)
	room := rows - len(head) - len(foot)
	from, to := window(len(body), at, room)
	return slices.Concat(head, block(body[from:to], w, room), foot)
}

// words are a word, whole, or else the file of the recipe at the cursor.
func (h home) words(t Theme, w int) []string {
	if h.word != "" {
		return warning(t, h.word, w)
	}
	if _, r := h.chosen(); r != nil {
		return []string{" " + t.quiet.Render(cut(clean(r.File), w-2))}
	}
	return []string{""}
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

// lines says where the batch is and what was last done in it.
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

// lines lists a recipe; one with problems shows how many, or at the cursor all of
// them, whole.
func (r RecipeItem) lines(t Theme, w int, chosen bool) []string {
	name := fit(clean(r.Name), 24) + "  "
	if len(r.Problems) > 0 {
		first := r.problem(0)
		if chosen {
			first = count(len(r.Problems), "problem", "problems") + " to mend"
		}
		lines := []string{entryLine(t, chosen, name, signBroken+" "+first, w)}
		for i := 0; chosen && i < len(r.Problems); i++ {
			for n, l := range wrap(r.problem(i), w-10) {
				lines = append(lines, spaces(5+2*min(n, 1))+l)
			}
		}
		return lines
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

// problem gives a problem with the last part of its file's path, which is what
// tells the files of one folder apart; the whole path stands below.
func (r RecipeItem) problem(i int) string {
	text, name := r.Problems[i], r.File[strings.LastIndexAny(r.File, `/\`)+1:]
	if at := strings.Index(text, name+":"); at > 0 {
		text = text[at:]
	}
	return clean(text)
}

// entryLine marks the chosen entry by a sign and by weight.
func entryLine(t Theme, chosen bool, name, rest string, w int) string {
	if !chosen {
		return cut("   "+name+rest, w-1)
	}
	return " " + t.accent.Render(signNow) + " " + t.strong.Render(name) + cut(rest, w-4-width(name))
}

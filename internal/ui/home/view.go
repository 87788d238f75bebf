package home

import (
	"errors"
	"slices"
	"strings"
	"time"

	"bench/internal/front"
	"bench/internal/quantity"
	"bench/internal/reply"
	"bench/internal/timer"
	"bench/internal/ui/ink"
	"bench/internal/ui/keys"

	"github.com/charmbracelet/bubbles/key"
)

func (h Screen) help() []key.Binding {
	b, r := h.chosen()
	does := keys.Open
	switch {
	case b != nil && b.HeldBy != "":
		does = keys.Says(keys.Open, "read along")
	case b != nil:
		does = keys.Says(keys.Open, "go on")
	case r != nil && len(r.Problems) > 0:
		does = keys.Off(keys.Open, "has problems")
	case r != nil:
		does = keys.Says(keys.Open, "set up")
	}
	return []key.Binding{keys.Shown("↑ ↓", "choose"), does, keys.Rack, keys.Aid, keys.Keys, keys.Quit}
}

// View lists what there is; h.cursor stays in sight.
func (h Screen) View(t ink.Theme, w, rows int, now timer.Moment) []string {
	head := []string{
		" " + ink.Between(t.Title.Render("bench"), t.Quiet.Render(ink.Cut(ink.Clean(h.Folder), w-10))+" ", w-1),
		t.Line.Render(ink.Rule(w)),
	}
	foot := slices.Concat([]string{t.Line.Render(ink.Rule(w))}, h.Words(t, w), []string{keys.HelpLine(t, w, h.help()...)})
	room := rows - len(head) - len(foot)
	body := ink.Pair(t.Line, w, room, func(w int) []string {
		lines, at := h.list(t, w, now)
		return ink.Scrolled(t, lines, at, room)
	}, func(w int) []string { return h.detail(t, w, room, now) })
	return slices.Concat(head, body, foot)
}

// Words are a word, whole, or else the file of the recipe at the cursor.
func (h Screen) Words(t ink.Theme, w int) []string {
	if h.Word != "" {
		return ink.Warning(t, h.Word, w)
	}
	if _, r := h.chosen(); r != nil {
		return []string{" " + t.Quiet.Render(ink.Cut(ink.Clean(r.File), w-2))}
	}
	return []string{""}
}

// list gives all lines, and which of them the cursor is on.
func (h Screen) list(t ink.Theme, w int, now timer.Moment) (lines []string, at int) {
	if h.Above != nil {
		lines = h.Above(w)
	}
	lines = append(lines, "", " "+t.Strong.Render("Under way"))
	if len(h.Batches) == 0 {
		lines = append(lines, "   "+t.Quiet.Render(h.none()))
	}
	if h.fresh {
		lines = append(lines, "   "+t.Quiet.Render(reply.Newcomer))
	}
	for i, b := range h.Batches {
		if i == h.cursor {
			at = len(lines) + 1
		}
		lines = append(lines, batchLines(b, t, w, i == h.cursor, now, h.At)...)
	}
	lines = append(lines, "", " "+t.Strong.Render("Recipes"))
	for i, r := range h.Recipes {
		chosen := i+len(h.Batches) == h.cursor
		if chosen {
			at = len(lines) + 1
		}
		lines = append(lines, recipeLines(r, t, w, chosen)...)
	}
	if h.err != nil {
		for _, l := range ink.Wrap("Not all could be read: "+ink.Clean(joined(h.err)), w-4) {
			lines = append(lines, " "+t.Off.Render(ink.SignOff)+" "+l)
		}
	}
	return lines, at
}

func (h Screen) none() string {
	if h.Loading {
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

// batchLines says where the batch is and what was last done in it.
func batchLines(b front.UnderWay, t ink.Theme, w int, chosen bool, now timer.Moment, at *time.Location) []string {
	name := ink.Fit(ink.Clean(b.Plan.Recipe), 24) + "  " + ink.Fit(ink.Clean(b.Code), 8) + "  "
	where := reply.WhereAt(b, now)
	if len(b.Plan.Since()) > 0 {
		where = ink.SignOff + " " + where
	}
	if b.HeldBy != "" {
		where = ink.SignOff + " " + ink.Clean(b.HeldBy)
	}
	last, head := "", 3+ink.Width(name)
	if b.Left != "" {
		where = ink.Clean(b.Left) + "; " + where
	}
	if n := len(b.State.Entries); n > 0 {
		last = said(b.State.Entries[n-1], b.State, now, at)
	}
	lines := []string{entryLine(t, chosen, name, ink.Clean(where), w)}
	if head+ink.Width(ink.Clean(where)) > w-1 { // It must be read whole, so it has lines of its own.
		lines = append([]string{entryLine(t, chosen, name, "", w)}, ink.Hang("    ", ink.Clean(where), w-1)...)
	}
	return append(lines, "     "+t.Quiet.Render(ink.Cut(last, w-6)))
}

// recipeLines lists a recipe; one with problems shows how many, or at the cursor all of
// them, whole.
func recipeLines(r front.RecipeItem, t ink.Theme, w int, chosen bool) []string {
	name := ink.Fit(ink.Clean(r.Name), 24) + "  "
	if len(r.Problems) > 0 {
		first := problem(r, 0)
		if chosen {
			first = quantity.Count(len(r.Problems), "problem", "problems") + " to mend"
		}
		lines := []string{entryLine(t, chosen, name, ink.SignBroken+" "+first, w)}
		for i := 0; chosen && i < len(r.Problems); i++ {
			for n, l := range ink.Wrap(problem(r, i), w-10) {
				lines = append(lines, ink.Spaces(5+2*min(n, 1))+l)
			}
		}
		return lines
	}
	whose := "your own"
	if r.BuiltIn {
		whose = "built in"
	}
	lines := []string{entryLine(t, chosen, name, ink.Fit(quantity.Count(r.Loaves, "loaf", "loaves"), 10)+whose, w)}
	if chosen && r.About != "" {
		for _, l := range ink.Wrap(ink.Clean(r.About), w-8) {
			lines = append(lines, "     "+t.Quiet.Render(l))
		}
	}
	return lines
}

// problem gives a problem with the last part of its file's path, which is what
// tells the files of one folder apart; the whole path stands below.
func problem(r front.RecipeItem, i int) string {
	text, name := r.Problems[i], r.File[strings.LastIndexAny(r.File, `/\`)+1:]
	if at := strings.Index(text, name+":"); at > 0 {
		text = text[at:]
	}
	return ink.Clean(text)
}

// entryLine marks the chosen entry by a sign and by weight.
func entryLine(t ink.Theme, chosen bool, name, rest string, w int) string {
	if !chosen {
		return ink.Cut("   "+name+rest, w-1)
	}
	return " " + t.Accent.Render(ink.SignNow) + " " + t.Strong.Render(name) + ink.Cut(rest, w-4-ink.Width(name))
}

package aside

import (
	"strings"

	"bench/internal/reply"
	"bench/internal/ui/ink"
	"bench/internal/ui/intent"
	"bench/internal/ui/keys"
)

// Ask is one line of text about the batch.
type Ask struct {
	reply.Question
	Line keys.Line
	Word string

	before *Ask // before is the question whose answer this one is about, or nil.
}

// Update edits the line; only enter and esc lead anywhere.
func (a Ask) Update(p keys.Press) (Ask, intent.Action) {
	a.Word = ""
	switch {
	case keys.Matches(p, keys.Back):
		return a, intent.Back{}
	case keys.Matches(p, keys.Confirm):
		if p.Held {
			return a, nil
		}
		act, word := a.Make(strings.TrimSpace(a.Line.Text()), p.At)
		a.Word = word
		return a, intent.Of(act)
	}
	a.Line = a.Line.Update(p)
	return a, nil
}

// View is the question over the line being typed, in a column in the middle.
func (a Ask) View(t ink.Theme, w, h int) []string {
	column := min(w, ink.Readable)
	lines := []string{""}
	if ink.Roomy(w, h) {
		lines = append(make([]string, h/6), ink.Headline(t.Strong, a.Title, column, h, 2)...)
	}
	for _, l := range ink.Wrap(a.Title, column-2) {
		lines = append(lines, " "+t.Title.Render(l))
	}
	lines = append(lines, "")
	for _, l := range ink.Wrap(a.Hint, column-2) {
		lines = append(lines, " "+t.Quiet.Render(l))
	}
	lines = append(lines, "", " "+t.Accent.Render(ink.SignNow)+" "+a.Line.View(t, column-4), "")
	if a.Word != "" {
		lines = append(lines, ink.Warning(t, a.Word, column)...)
	}
	return append(ink.Block(ink.Centred(lines, w, column), w, h-1), keys.HelpLine(t, w, keys.Confirm, keys.Back, keys.AidAnywhere))
}

// Small is the page in a window too small for it.
func (a Ask) Small(t ink.Theme, w int) ink.Small {
	lines := append(ink.Wrap(a.Title, w), ink.Wrap(a.Hint, w)...)
	lines = append(lines, t.Accent.Render(ink.SignNow)+" "+a.Line.View(t, w-2))
	if a.Word != "" {
		lines = append(lines, ink.Wrap(ink.SignOff+" "+a.Word, w)...)
	}
	return ink.Small{Needs: lines, Least: lines, Keys: keys.Small(t, w, keys.Confirm, keys.Back)}
}

// NewAsk puts a question, with what was typed of the answer already.
func NewAsk(q reply.Question) Ask { return Ask{Question: q, Line: keys.Line{}.Insert(q.Begun)} }

// About puts a question about what was just typed, which stays as it is for who goes back.
func (a Ask) About(q reply.Question) Ask {
	about := NewAsk(q)
	about.before = &a
	return about
}

// Before gives the question that this one is about the answer of, with what was typed, or
// false.
func (a Ask) Before() (Ask, bool) {
	if a.before == nil {
		return Ask{}, false
	}
	return *a.before, true
}

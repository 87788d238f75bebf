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

// View is the question over the line being typed.
func (a Ask) View(t ink.Theme, w, h int) []string {
	lines := []string{"", " " + t.Title.Render(ink.Cut(a.Title, w-2)), ""}
	for _, l := range ink.Wrap(a.Hint, w-2) {
		lines = append(lines, " "+t.Quiet.Render(l))
	}
	lines = append(lines, "", " "+t.Accent.Render(ink.SignNow)+" "+a.Line.View(t, w-4), "")
	if a.Word != "" {
		lines = append(lines, ink.Warning(t, a.Word, w)...)
	}
	return append(ink.Block(lines, w, h-1), keys.HelpLine(t, w, keys.Confirm, keys.Back, keys.AidAnywhere))
}

// NewAsk puts a question.
func NewAsk(q reply.Question) Ask { return Ask{Question: q} }

package ui

import (
	"strings"

	"bench/internal/batch"
)

// purpose is what a line of text is asked for.
type purpose int

const (
	forNote purpose = iota
	forLeavingOut
	forEnding
)

// abandonWord must be typed before a reason, so that no stray key ends a batch.
const abandonWord = "abandon"

// ask is one line of text about the batch.
type ask struct {
	purpose purpose
	code    string
	stage   string // stage is where a note is taken.
	task    string // task is what is left out.
	title   string
	hint    string
	line    line
	word    string
}

// update edits the line; only enter and esc lead anywhere.
func (a ask) update(p press) (ask, action) {
	a.word = ""
	switch {
	case matches(p, keys.Back):
		return a, back{}
	case matches(p, keys.Confirm):
		if p.held {
			return a, nil
		}
		return a.answer()
	}
	a.line = a.line.update(p)
	return a, nil
}

// answer turns the line into a fact, or says what it lacks.
func (a ask) answer() (ask, action) {
	text := strings.TrimSpace(a.line.text())
	switch a.purpose {
	case forNote:
		if text != "" {
			return a, keep{code: a.code, fact: batch.Noted{Stage: a.stage, Text: text}}
		}
		a.word = "Write the note first; esc goes back."
	case forLeavingOut:
		if text != "" {
			return a, keep{code: a.code, fact: batch.Skipped{Task: a.task, Reason: text}}
		}
		a.word = "Say why it is left out; esc goes back."
	case forEnding:
		reason, ok := strings.CutPrefix(text, abandonWord)
		if reason = strings.TrimSpace(reason); ok && reason != "" {
			return a, keep{code: a.code, fact: batch.Closed{Reason: reason}}
		}
		a.word = "Type the word " + abandonWord + " and then why; esc goes back."
	}
	return a, nil
}

func (a ask) view(t Theme, w, h int) []string {
	lines := []string{"", " " + t.title.Render(cut(a.title, w-2)), ""}
	for _, l := range wrap(a.hint, w-2) {
		lines = append(lines, " "+t.quiet.Render(l))
	}
	lines = append(lines, "", " "+t.accent.Render(signNow)+" "+a.line.view(t, w-4), "")
	if a.word != "" {
		lines = append(lines, warning(t, a.word, w)...)
	}
	return append(block(lines, w, h-1), helpLine(t, w, keys.Confirm, keys.Back, keys.AidAnywhere))
}

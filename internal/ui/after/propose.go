// Package after is the batch after the pour on the screen: answers to choose
// from, the rack of batches in cure, and their drying curves.
//
// The rule: what looks like a slip is asked about, and kept with the answer.
package after

import (
	"errors"
	"strings"

	"bench/internal/batch"
	"bench/internal/steps"
	"bench/internal/timer"
	"bench/internal/ui/ink"
	"bench/internal/ui/intent"
)

// Propose says what becomes of a fact: it is kept, asked about first, or
// refused in words.
func Propose(code string, p steps.Plan, f batch.Fact, at timer.Moment) (intent.Action, string) {
	doubt := p.Doubt(f)
	if doubt == "" || !steps.Keeps(f) {
		return allowed(code, p, f, at)
	}
	return intent.Question{
		Purpose: intent.ForAnswer, Code: code, Title: "Is that so?",
		Hint: sentence(doubt) + " If it is right, say how that came: it is kept with your answer. esc goes back.",
		Make: func(text string, at timer.Moment) (intent.Action, string) {
			if text == "" {
				return nil, "Say how that came; esc goes back."
			}
			answered, _ := steps.Answered(f, doubt, text)
			return allowed(code, p, answered, at)
		},
	}, ""
}

func allowed(code string, p steps.Plan, f batch.Fact, at timer.Moment) (intent.Action, string) {
	if err := p.Allows(f, at); err != nil {
		return nil, ink.Sentence(err)
	}
	return intent.Keep{Code: code, Fact: f}, ""
}

// InWords asks for an answer in words: several bars together, or another day.
func InWords(code string, p steps.Plan, t steps.Task, at timer.Moment) intent.Question {
	hint := "With the day, such as 108.4 on 2026-12-01, where that was not today."
	switch t.Do {
	case steps.Bars:
		hint = "One bar, or several together: 10 x 1124 is ten bars of 1124 g in all. " + hint
	case steps.Measure:
		hint = "A pH such as 9.6, or free alkali as a share: 0.02 %. " + hint
	case steps.Count:
		hint = "How many bars. With the day, such as 8 on 2026-12-01, where that was not today."
	default:
	}
	now := at.Wall
	return intent.Question{
		Purpose: intent.ForAnswer, Code: code, Title: ink.Clean(t.Title), Hint: hint,
		Make: func(text string, at timer.Moment) (intent.Action, string) {
			if text == "" {
				return nil, "Write the answer first; esc goes back."
			}
			f, err := p.Answer(t.ID, steps.Answer{How: batch.Typed, Text: text, Now: now})
			if err != nil {
				return nil, ink.Sentence(err)
			}
			return Propose(code, p, f, at)
		},
	}
}

// sentence makes a doubt into one, or leaves the question that it ends with.
func sentence(doubt string) string {
	s := ink.Sentence(errors.New(doubt))
	if strings.HasSuffix(s, "?.") {
		return strings.TrimSuffix(s, ".")
	}
	return s
}

package reply

import (
	"time"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/phrase"
	"bench/internal/recipe"
	"bench/internal/steps"
	"bench/internal/timer"
	"bench/internal/work"
)

// Note asks for a note, taken at a stage.
func Note(code, stage string) Question {
	return Question{
		Title: "Note", Hint: "One line; it goes into the record with the time.",
		Make: said("Write the note first.", func(text string) Act {
			return Keep{Code: code, Fact: batch.Noted{Stage: stage, Text: text}}
		}),
	}
}

// said makes a line into an intent, once there is something in it.
func said(empty string, keep func(text string) Act) func(string, timer.Moment) (Act, string) {
	return func(text string, _ timer.Moment) (Act, string) {
		if text == "" {
			return nil, empty
		}
		return keep(text), ""
	}
}

// LeaveOut asks for the reason, after the plan was asked whether the task may be
// left out at all.
func LeaveOut(code string, p steps.Plan, t work.Task, now timer.Moment) (Act, string) {
	if err := judge.Allows(p, batch.Skipped{Task: t.ID, Reason: "?"}, now); err != nil {
		return nil, phrase.Sentence(err)
	}
	return Question{
		Title: "Leave out: " + recipe.Clean(t.Title), Hint: "Say why. It stays in the record as left out.",
		Make: said("Say why it is left out.", func(text string) Act {
			return Keep{Code: code, Fact: batch.Skipped{Task: t.ID, Asked: t.Title, Reason: text}}
		}),
	}, ""
}

// InWords asks for an answer in words: several bars together, or another day.
func InWords(code string, p steps.Plan, t work.Task, at timer.Moment) Question {
	now := at.Wall
	return Question{
		Title: recipe.Clean(t.Title), Hint: InWordsHint(t.Do, now),
		Make: func(text string, at timer.Moment) (Act, string) {
			if text == "" {
				return nil, "Write the answer first."
			}
			f, err := judge.Fact(p, t.ID, judge.Answer{How: batch.Typed, Text: text, Now: now})
			if err != nil {
				return nil, phrase.Sentence(err)
			}
			return Propose(code, p, f, at)
		},
	}
}

// InWordsHint says what words an answer takes after the pour; the day that it shows is
// one that has been.
func InWordsHint(d work.Do, now time.Time) string {
	day := now.AddDate(0, 0, -1).Format(time.DateOnly)
	hint := "With the day, such as 108.4 on " + day + ", where that was not today."
	switch d {
	case work.Bars:
		return "One bar, or several together: 10 x 1124 is ten bars of 1124 g in all. " + hint
	case work.Measure:
		return "A pH such as 9.6, or free alkali as a share: 0.02 %. " + hint
	case work.Count:
		return "How many bars. With the day, such as 8 on " + day + ", where that was not today."
	default:
		return hint
	}
}

// Choice says what becomes of a choice: it is proposed, or asks for words first.
// Typed is a temperature that goes with it, or "".
func Choice(code string, p steps.Plan, c judge.Choice, typed string, at timer.Moment) (Act, string) {
	if c.Fact == nil {
		return nil, c.Why
	}
	if c.Ask == "" {
		f, err := judge.Warmed(c.Fact, typed)
		if err != nil {
			return nil, phrase.Sentence(err)
		}
		return Propose(code, p, f, at)
	}
	return Question{
		Title: recipe.Clean(c.Title), Hint: "Say " + c.Ask + ". It stays in the record.",
		Make: func(text string, at timer.Moment) (Act, string) {
			f, err := c.On(text, at.Wall)
			if err != nil {
				return nil, phrase.Sentence(err)
			}
			return Propose(code, p, f, at)
		},
	}, ""
}

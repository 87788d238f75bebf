package reply

import (
	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/phrase"
	"bench/internal/recipe"
	"bench/internal/resume"
	"bench/internal/steps"
	"bench/internal/timer"
)

// AnswerLook keeps what answers a look into a vessel, or asks how it is known that all is
// right with it.
func AnswerLook(code string, p steps.Plan, l steps.AfterLook, at timer.Moment) (Act, string) {
	if l.Fact != nil {
		return allowed(code, p, l.Fact, at)
	}
	return Question{
		Title: "How do you know?", Hint: recipe.Clean(sentence(l.Vessel+": "+l.Finds)) + " If it is right all the same, say how you know: it is kept, and the work goes on.",
		Make: func(text string, at timer.Moment) (Act, string) {
			f := batch.PotAnswered{Look: l.Seq, Vessel: l.Vessel, Finding: l.Finds, Answer: text}
			if err := judge.Allows(p, f, at); err != nil {
				return nil, phrase.Sentence(err)
			}
			return Keep{Code: code, Fact: f}, ""
		},
	}, ""
}

// byLook says of a weight that is what a look into a vessel found to be in it already that
// it is from there, so that it answers the look.
func byLook(p steps.Plan, f batch.Fact) batch.Fact {
	w, ok := f.(batch.Weighed)
	if !ok {
		return f
	}
	if u, found := resume.InAlready(p); found && u.Task.ID == w.Task && u.Mass == w.Mass {
		w.Look = u.Look
		return w
	}
	return f
}

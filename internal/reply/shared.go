package reply

import (
	"bench/internal/batch"
	"bench/internal/recipe"
	"bench/internal/steps"
	"bench/internal/work"
)

// Shared warns of a vessel that holds something of another batch, or of another's
// lye that stands open when this one is cleaned up; or "".
func Shared(p steps.Plan, t work.Task, others []steps.Occupied) string {
	shared := p.Shared(t.ID, others)
	if shared == "" {
		return ""
	}
	if t.Vessel+t.Into == "" {
		return "not yet: " + shared
	}
	return shared + ": take another, or finish that first"
}

// AskShared asks about such a vessel before anything goes into it, until it was
// answered once; the answer is kept as a note of the batch.
func AskShared(code string, p steps.Plan, t work.Task, stage work.Stage, others []steps.Occupied) (Question, bool) {
	shared := p.Shared(t.ID, others)
	if !t.Open || shared == "" || p.MayShare(shared) {
		return Question{}, false
	}
	keep := said("Say how it stands now.", func(text string) Act {
		return Keep{Code: code, Fact: batch.Noted{Stage: stage.ID, Text: steps.SharedNote(shared, text)}}
	})
	if t.Vessel+t.Into == "" {
		return Question{
			Title: "Not yet?",
			Hint:  recipe.Clean(sentence(shared)) + " Finish that lye first. To go on, say why it is safe: it is kept with the batch. Then answer the task again.",
			Make:  keep,
		}, true
	}
	return Question{
		Title: "Is the vessel free?",
		Hint: recipe.Clean(sentence(shared)) + " Take another vessel, or finish that batch first. To go on, say what stands here now, such as \"took the spare jug, 214.0 g empty\": " +
			"it is kept with the batch. Then answer the task again; weights without tare are those of the vessel that was planned.",
		Make: keep,
	}, true
}

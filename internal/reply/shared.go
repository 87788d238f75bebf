package reply

import (
	"bench/internal/batch"
	"bench/internal/recipe"
	"bench/internal/steps"
	"bench/internal/work"
)

// Shared warns of a vessel that holds something of another batch, or "".
func Shared(p steps.Plan, t work.Task, others []steps.Occupied) string {
	shared := p.Shared(t.ID, others)
	if shared == "" {
		return ""
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
	return Question{
		Title: "Is the vessel free?",
		Hint: recipe.Clean(sentence(shared)) + " Take another vessel, or finish that batch first. To go on, say what stands here now, such as \"took the spare jug, 214.0 g empty\": " +
			"it is kept with the batch. Then answer the task again; weights without tare are those of the vessel that was planned.",
		Make: said("Say what stands here now.", func(text string) Act {
			return Keep{Code: code, Fact: batch.Noted{Stage: stage.ID, Text: steps.SharedNote(shared, text)}}
		}),
	}, true
}

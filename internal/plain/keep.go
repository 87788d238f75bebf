package plain

import (
	"errors"

	"bench/internal/batch"
	"bench/internal/front"
	"bench/internal/phrase"
	"bench/internal/quantity"
	"bench/internal/reply"
	"bench/internal/say"
	"bench/internal/steps"
)

// keep has a fact kept, and says so once it is. One that was not saved is offered
// again, with the moment at which it was said.
func (s *session) keep(k reply.Keep) {
	if k.At.IsZero() {
		k.At = s.now()
	}
	entry, err := s.append(k)
	for err != nil {
		var refused *front.RefusedError
		if errors.As(err, &refused) {
			s.warn(phrase.Sentence(refused.Why))
			s.say("Nothing was kept.")
			return
		}
		s.warn("NOT SAVED: " + say.Fact(batch.Entry{Fact: k.Fact, At: k.At}, s.plan, s.state))
		s.say(phrase.Sentence(err))
		text, ok := s.ask("again saves it again, drop lets it go: it will not be in the record")
		switch {
		case !ok || text == "drop":
			s.say("Let go: it is not in the record.")
			return
		case text == "again":
			entry, err = s.append(k)
		}
	}
	s.kept(k.Code, entry)
	if remark := s.Store.Remark(); remark != "" {
		s.warn(remark)
	}
}

// append keeps a fact. A batch that is not on the bench is taken hold of for as
// long as that takes.
func (s *session) append(k reply.Keep) (batch.Entry, error) {
	if k.Code == s.code {
		return s.Store.Append(k.Code, k.Fact, k.At)
	}
	if _, err := s.Store.Open(k.Code, k.At); err != nil {
		return batch.Entry{}, front.NotOpened(k.Code, err)
	}
	entry, err := s.Store.Append(k.Code, k.Fact, k.At)
	if let := s.Store.Release(k.Code); let != nil {
		s.warn("Batch " + k.Code + " was not let go: " + let.Error())
	}
	return entry, err
}

// kept applies a fact that is durable, and says it.
func (s *session) kept(code string, e batch.Entry) {
	if code != s.code {
		for i, b := range s.batches {
			if b.Code == code {
				b.State = b.State.Apply(e)
				s.batches[i] = front.Planned(b.BatchItem)
				s.say("Kept, " + code + ": " + s.stamped(e, s.batches[i].Plan, b.State))
			}
		}
		return
	}
	s.state = s.state.Apply(e)
	s.plan = steps.Of(s.state)
	s.say("Kept: " + s.stamped(e, s.plan, s.state))
	task := batch.Task(e.Fact)
	if task == "" {
		switch e.Fact.(type) {
		case batch.Decided, batch.VesselReplaced:
			s.shown = "" // What is asked may be something else now.
		default:
			if s.plan.Closed {
				s.shown = ""
			}
		}
		return
	}
	s.doubt, s.shown = nil, ""
	if s.cursor != "" {
		s.cursor = reply.OpenAfter(s.plan, task)
	}
	if _, stage, ok := s.plan.Task(task); ok && stage.Done && stage.ReadBack != "" {
		s.say("Read back, " + stage.Title + ": " + stage.ReadBack)
	}
	if n := s.plan.Undecided(); n > 0 && !s.plan.Closed {
		s.warn(quantity.Count(n, "weight or warning waits", "weights and warnings wait") + " for a word: ways shows how to go on.")
	}
}

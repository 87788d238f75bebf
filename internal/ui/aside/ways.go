package aside

import (
	"slices"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/phrase"
	"bench/internal/reply"
	"bench/internal/steps"
	"bench/internal/ui/intent"
	"bench/internal/ui/keys"
)

// Ways shows, side by side, how to go on after a weight that was off, and the
// warnings that are to be answered once: a challenge, and a figure that is typed.
// It is opened by the person.
type Ways struct {
	code  string
	plan  steps.Plan
	item  int           // item counts through the deviations first, since a way may mend what a warning is about, then the warnings.
	ways  []steps.WayOn // ways are those of the deviation at hand.
	way   int
	typed string // typed answers a warning.
	Word  string
}

// NewWays opens at the first deviation that is undecided, or else at a warning.
func NewWays(code string, p steps.Plan) Ways {
	w := Ways{code: code, plan: p}
	return w.preselected()
}

// deviation gives the deviation at hand, or false for a warning.
func (s Ways) deviation() (steps.Deviation, bool) {
	if s.item >= len(s.plan.Deviations) {
		return steps.Deviation{}, false
	}
	return s.plan.Deviations[s.item], true
}

// warning gives the warning at hand, or false for a deviation.
func (s Ways) warning() (steps.Unread, bool) {
	at := s.item - len(s.plan.Deviations)
	if at < 0 || at >= len(s.plan.Unread) {
		return steps.Unread{}, false
	}
	return s.plan.Unread[at], true
}

func (s Ways) preselected() Ways {
	s.ways = nil
	if d, ok := s.deviation(); ok {
		s.ways = s.plan.Ways(d)
	}
	s.way = max(0, slices.IndexFunc(s.ways, func(w steps.WayOn) bool { return w.Default }))
	s.typed = ""
	return s
}

// Update takes a key: one that picks a way, or takes it.
func (s Ways) Update(p keys.Press) (Ways, intent.Action) {
	s.Word = ""
	if r, ok := keys.Figure(p); ok {
		return s.figure(r), nil
	}
	switch {
	case keys.Matches(p, keys.Back) && s.typed != "":
		s.typed = ""
	case keys.Matches(p, keys.Erase):
		s.typed = s.typed[:max(0, len(s.typed)-1)]
	case keys.Matches(p, keys.Back):
		return s, intent.Back{}
	case keys.Moves(p):
		s.item = keys.Moved(p, s.item, s.plan.Undecided())
		return s.preselected(), nil
	case keys.Matches(p, keys.Left):
		s.way = max(0, s.way-1)
	case keys.Matches(p, keys.Right):
		s.way = max(0, min(len(s.ways)-1, s.way+1))
	case keys.Matches(p, keys.Decide) && !p.Held:
		return s.decide(p)
	}
	return s, nil
}

// figure goes to the answer of a warning.
func (s Ways) figure(r rune) Ways {
	if _, ok := s.warning(); !ok {
		s.Word = "No number is asked for here."
		return s
	}
	s.typed = keys.WithFigure(s.typed, r)
	return s
}

// decide takes the way at hand, or the answer to the warning.
func (s Ways) decide(p keys.Press) (Ways, intent.Action) {
	var f batch.Fact
	u, ok := s.warning()
	switch {
	case ok:
		f, _ = judge.Respond(u, s.typed)
		s.typed = ""
	case len(s.ways) == 0:
		s.Word = "There is nothing to choose: esc goes back to the bench."
		return s, nil
	case s.ways[s.way].Look != nil:
		return s.answerLook(*s.ways[s.way].Look, p)
	default:
		f = s.ways[s.way].Fact
	}
	if err := judge.Allows(s.plan, f, p.At); err != nil {
		s.Word = phrase.Sentence(err)
		return s, nil
	}
	return s, intent.Of(reply.Keep{Code: s.code, Fact: f})
}

// answerLook weighs the vessel again, keeps what it was, or asks for the reason.
func (s Ways) answerLook(l steps.AfterLook, p keys.Press) (Ways, intent.Action) {
	if l.Kind == steps.WeighAgain {
		return s, intent.WeighPot{Vessel: l.Vessel}
	}
	act, word := reply.AnswerLook(s.code, s.plan, l, p.At)
	s.Word = word
	return s, intent.Of(act)
}

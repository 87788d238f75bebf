package bench

import (
	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/reply"
	"bench/internal/timer"
	"bench/internal/ui/intent"
	"bench/internal/ui/keys"
	"bench/internal/work"
)

// answer turns the key into a proposed fact, or into words that say why not.
func (b Screen) answer(p keys.Press) (Screen, intent.Action) {
	t, stage, ok := b.Current(p.At)
	switch {
	case p.Held:
		return b, nil
	case !ok:
		b.Word = "There is nothing to do just now."
		return b, nil
	case b.sending != "":
		b.Word = "Still saving the last entry: press it again."
		return b, nil
	}
	switch {
	case t.Do == work.Choose:
		return b.answers(p.At)
	case keys.Matches(p, keys.Tick) && b.Typed != "" && takesWords(t, stage): // Words follow, such as a day.
		return b.inWords(p.At)
	}
	a, why := b.heard(t, p)
	if why != "" {
		b.Word, b.jumped = why, timer.Moment{}
		return b, nil
	}
	if q, shared := reply.AskShared(b.Code, b.Plan, t, b.beside); shared {
		return b, intent.Of(q)
	}
	act, doubt, word := reply.To(b.Code, b.Plan, t, a, b.doubt, p.At)
	_, b.anew = act.(reply.Question)
	switch {
	case word != "":
		b.Word, b.anew = word, true // What was refused stays to be edited; a figure begins another number.
	case act == nil:
		b.doubt, b.Typed = doubt, ""
	}
	return b, intent.Of(act)
}

// heard reads the key and what was typed as an answer; why says why it is none.
func (b Screen) heard(t work.Task, p keys.Press) (a judge.Answer, why string) {
	switch {
	case t.Do == work.Confirm && keys.Matches(p, keys.Accept):
		return judge.Answer{How: batch.AtTarget}, b.rushed(p)
	case t.Do == work.Confirm:
		return a, "Read it back, then press enter: space is for what was done."
	case keys.Matches(p, keys.Tick):
		if b.Typed != "" {
			return a, "Enter keeps " + b.Typed + "; esc clears it."
		}
		if b.doubt != nil {
			return a, "Type it a second time, or esc to begin anew."
		}
		return judge.Answer{How: batch.AtTarget}, b.rushed(p)
	case keys.Matches(p, keys.ByEye):
		if t.Do != work.Weigh && t.Do != work.Portion {
			return a, "Nothing is weighed here."
		}
		if b.Typed == "" && b.doubt != nil {
			return a, "Type it a second time, or esc to begin anew."
		}
		return judge.Answer{How: batch.ByEye, Text: b.Typed}, ""
	case b.Typed == "" && !t.Numeric():
		return a, "Space ticks this."
	case b.Typed == "":
		return a, "Type the number first, then " + p.String() + "."
	case keys.Matches(p, keys.More):
		if t.Do != work.Weigh {
			return a, "This comes from one vessel: enter keeps it."
		}
		return judge.Answer{How: batch.Typed, Text: b.Typed, More: true}, ""
	}
	return judge.Answer{How: batch.Typed, Text: b.Typed}, ""
}

// rushed says why a key that ticks came too soon after another stage, or a pause point,
// came into sight.
func (b Screen) rushed(p keys.Press) string {
	t, _, _ := b.Current(p.At)
	switch {
	case !keys.Within(p.At, b.jumped, p.Startle()):
		return ""
	case t.Do == work.Confirm:
		return "What was done stands here: look first, then press it again."
	}
	return "This is another stage: look first, then press it again."
}

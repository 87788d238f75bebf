// Package aside holds the pages that open beside the bench and lead back to it:
// the record, the ways to go on, the weighing of a pot, a line of text, first
// aid.
//
// The rule: esc leads back, and nothing is kept that was not confirmed.
package aside

import (
	"errors"
	"slices"
	"time"

	"bench/internal/batch"
	"bench/internal/phrase"
	"bench/internal/reply"
	"bench/internal/steps"
	"bench/internal/timer"
	"bench/internal/ui/intent"
	"bench/internal/ui/keys"
)

// recordStep is how far a correction has come.
type recordStep int

const (
	picking recordStep = iota
	typingValue
	typingReason
)

// Record is the list of what was said, to pick an entry and correct it. The
// first value stays in the list, and in the record.
type Record struct {
	code   string
	state  batch.State
	plan   steps.Plan
	at     *time.Location
	cursor int // cursor is an index into the entries.
	step   recordStep
	value  keys.Line
	reason keys.Line
	doubt  *reply.Doubted // doubt is a value that must be typed a second time.
	takes  bool           // takes says that the reason is for taking the entry back.
	Word   string
}

// NewRecord opens the list at the latest entry that was measured and still stands.
func NewRecord(code string, s batch.State, p steps.Plan, at *time.Location) Record {
	r := Record{code: code, state: s, plan: p, at: at}
	r.cursor = max(0, len(s.Entries)-1)
	for i, e := range slices.Backward(s.Entries) {
		if reply.Measured(e.Fact) && !s.Withdrawn(e.Seq) {
			r.cursor = i
			break
		}
	}
	return r
}

// Writing says that keys are text, not commands.
func (r Record) Writing() bool { return r.step != picking }

// Pasted puts pasted text into the line that is being written.
func (r Record) Pasted(text string) Record {
	switch r.step {
	case typingValue:
		r.value = r.value.Insert(text)
	case typingReason:
		r.reason = r.reason.Insert(text)
	case picking:
	}
	return r
}

// Update takes a key: one that picks a fact, or part of its correction.
func (r Record) Update(p keys.Press) (Record, intent.Action) {
	r.Word = ""
	if r.step == picking {
		return r.pick(p)
	}
	switch {
	case keys.Matches(p, keys.Back) && r.takes:
		r.step = picking
	case keys.Matches(p, keys.Back):
		r.step--
	case keys.Matches(p, keys.Confirm):
		if p.Held {
			return r, nil
		}
		return r.confirm(p.At)
	case r.step == typingValue:
		r.value = r.value.Update(p)
	default:
		r.reason = r.reason.Update(p)
	}
	return r, nil
}

// pick chooses the entry; those without a value stay in the list, because the
// list is the record.
func (r Record) pick(p keys.Press) (Record, intent.Action) {
	switch {
	case keys.Moves(p):
		r.cursor = keys.Moved(p, r.cursor, len(r.state.Entries))
	case keys.Matches(p, keys.Back):
		return r, intent.Back{}
	case keys.Matches(p, keys.Confirm) && !p.Held:
		if r.Word = r.whyNot(); r.Word == "" {
			r.step, r.takes, r.value, r.reason, r.doubt = typingValue, false, keys.Line{}, keys.Line{}, nil
		}
	case keys.Matches(p, keys.TakeBack) && !p.Held:
		_, r.Word = reply.TakeBack(r.code, r.plan, r.state.Entries[r.cursor].Seq, "?", p.At)
		if r.Word == "" {
			r.step, r.takes, r.value, r.reason, r.doubt = typingReason, true, keys.Line{}, keys.Line{}, nil
		}
	}
	return r, nil
}

// whyNot says why the entry at the cursor cannot be given another value, or "".
func (r Record) whyNot() string {
	e := r.state.Entries[r.cursor]
	switch why := batch.Withdrawable(e.Fact); {
	case r.plan.Closed:
		return "The batch is ended: its record stays as it is. A note can be added at the bench."
	case r.state.Withdrawn(e.Seq):
		return "This was taken back: say it anew at the bench."
	case reply.Correctable(e.Fact):
		return ""
	case why != "":
		return phrase.Sentence(errors.New(why))
	default:
		return "This entry holds no value: x takes it back, if it was not so."
	}
}

// confirm goes from the value to the reason, and from there to the fact. A value
// that was refused stays to be mended; one that looks like a slip is typed again.
func (r Record) confirm(now timer.Moment) (Record, intent.Action) {
	seq := r.state.Entries[r.cursor].Seq
	if r.takes {
		act, word := reply.TakeBack(r.code, r.plan, seq, r.reason.Text(), now)
		r.Word = word
		return r, intent.Of(act)
	}
	if r.step == typingReason {
		act, word := reply.Correct(r.code, r.state, r.plan, seq, r.value.Text(), r.reason.Text(), now)
		r.Word = word
		return r, intent.Of(act)
	}
	switch r.doubt, r.Word = reply.NewValue(r.state, r.plan, seq, r.value.Text(), r.doubt, now); {
	case r.Word != "":
	case r.doubt == nil:
		r.step = typingReason
	default:
		r.value = keys.Line{}
	}
	return r, nil
}

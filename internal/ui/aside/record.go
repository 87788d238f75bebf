// Package aside holds the pages that open beside the bench and lead back to it:
// the record, the ways to go on, the weighing of a pot, a line of text, first
// aid.
//
// The rule: esc leads back, and nothing is kept that was not confirmed.
package aside

import (
	"slices"
	"time"

	"bench/internal/batch"
	"bench/internal/steps"
	"bench/internal/timer"
	"bench/internal/ui/ink"
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
	doubt  *intent.Doubted // doubt is a value that must be typed a second time.
	Word   string
}

// NewRecord opens the list at the latest entry that can be corrected.
func NewRecord(code string, s batch.State, p steps.Plan, at *time.Location) Record {
	r := Record{code: code, state: s, plan: p, at: at}
	r.cursor = max(0, len(s.Entries)-1)
	for i, e := range slices.Backward(s.Entries) {
		if correctable(e.Fact) {
			r.cursor = i
			break
		}
	}
	return r
}

// correctable says that a fact holds a value.
func correctable(f batch.Fact) bool {
	switch f := f.(type) {
	case batch.Weighed, batch.Grossed, batch.TemperatureTaken, batch.BarsCut, batch.BarsWeighed, batch.SetAside, batch.WeighedIn:
		return true
	case batch.Tested:
		return f.Test != batch.LookTest
	default:
		return false
	}
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
	case keys.Matches(p, keys.Up):
		r.cursor = max(0, r.cursor-1)
	case keys.Matches(p, keys.Down):
		r.cursor = min(len(r.state.Entries)-1, r.cursor+1)
	case keys.Matches(p, keys.Back):
		return r, intent.Back{}
	case keys.Matches(p, keys.Confirm) && !p.Held:
		if !correctable(r.state.Entries[r.cursor].Fact) {
			r.Word = "This entry holds no value. A note (n at the bench) can say what was wrong."
			return r, nil
		}
		r.step, r.value, r.reason, r.doubt = typingValue, keys.Line{}, keys.Line{}, nil
	}
	return r, nil
}

// confirm goes from the value to the reason, and from there to the fact. A value
// that was refused or looks like a slip leaves the field, as at the bench.
func (r Record) confirm(now timer.Moment) (Record, intent.Action) {
	reason := r.reason.Text()
	if r.step == typingValue {
		reason = "?" // The value is judged before a reason is asked for.
	}
	f, err := r.plan.Correct(r.state, r.state.Entries[r.cursor].Seq, r.value.Text(), reason)
	if err == nil {
		err = r.plan.Allows(f, now)
	}
	switch {
	case err != nil:
		r.Word = ink.Sentence(err)
		if r.step == typingValue {
			r.value = keys.Line{}
		}
	case r.step == typingReason:
		return r, intent.Keep{Code: r.code, Fact: f}
	default:
		return r.propose(f), nil
	}
	return r, nil
}

// propose goes on to the reason, unless the value looks like a slip and was not
// typed a second time.
func (r Record) propose(f batch.Fact) Record {
	words := r.plan.Doubt(f)
	if words == "" || r.doubt != nil && r.doubt.Fact == f {
		r.step, r.doubt = typingReason, nil
		return r
	}
	r.doubt, r.value = &intent.Doubted{Fact: f, Words: words}, keys.Line{}
	return r
}

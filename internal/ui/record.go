package ui

import (
	"slices"
	"time"

	"bench/internal/batch"
	"bench/internal/steps"
	"bench/internal/timer"
)

// recordStep is how far a correction has come.
type recordStep int

const (
	picking recordStep = iota
	typingValue
	typingReason
)

// record is the list of what was said, to pick an entry and correct it. The
// first value stays in the list, and in the record.
type record struct {
	code   string
	state  batch.State
	plan   steps.Plan
	at     *time.Location
	cursor int // cursor is an index into the entries.
	step   recordStep
	value  line
	reason line
	doubt  *doubted // doubt is a value that must be typed a second time.
	word   string
}

// newRecord opens the list at the latest entry that can be corrected.
func newRecord(b bench, at *time.Location) record {
	r := record{code: b.code, state: b.state, plan: b.plan, at: at}
	r.cursor = max(0, len(b.state.Entries)-1)
	for i, e := range slices.Backward(b.state.Entries) {
		if correctable(e.Fact) {
			r.cursor = i
			break
		}
	}
	return r
}

// correctable says that a fact holds a value.
func correctable(f batch.Fact) bool {
	switch f.(type) {
	case batch.Weighed, batch.Grossed, batch.TemperatureTaken:
		return true
	default:
		return false
	}
}

func (r record) writing() bool { return r.step != picking }

// pasted puts pasted text into the line that is being written.
func (r record) pasted(text string) record {
	switch r.step {
	case typingValue:
		r.value = r.value.insert(text)
	case typingReason:
		r.reason = r.reason.insert(text)
	case picking:
	}
	return r
}

func (r record) update(p press) (record, action) {
	r.word = ""
	if r.step == picking {
		return r.pick(p)
	}
	switch {
	case matches(p, keys.Back):
		r.step--
	case matches(p, keys.Confirm):
		if p.held {
			return r, nil
		}
		return r.confirm(p.at)
	case r.step == typingValue:
		r.value = r.value.update(p)
	default:
		r.reason = r.reason.update(p)
	}
	return r, nil
}

// pick chooses the entry; those without a value stay in the list, because the
// list is the record.
func (r record) pick(p press) (record, action) {
	switch {
	case matches(p, keys.Up):
		r.cursor = max(0, r.cursor-1)
	case matches(p, keys.Down):
		r.cursor = min(len(r.state.Entries)-1, r.cursor+1)
	case matches(p, keys.Back):
		return r, back{}
	case matches(p, keys.Confirm) && !p.held:
		if !correctable(r.state.Entries[r.cursor].Fact) {
			r.word = "This entry holds no value. A note (n at the bench) can say what was wrong."
			return r, nil
		}
		r.step, r.value, r.reason, r.doubt = typingValue, line{}, line{}, nil
	}
	return r, nil
}

// confirm goes from the value to the reason, and from there to the fact. A value
// that was refused or looks like a slip leaves the field, as at the bench.
func (r record) confirm(now timer.Moment) (record, action) {
	reason := r.reason.text()
	if r.step == typingValue {
		reason = "?" // The value is judged before a reason is asked for.
	}
	f, err := r.plan.Correct(r.state, r.state.Entries[r.cursor].Seq, r.value.text(), reason)
	if err == nil {
		err = r.plan.Allows(f, now)
	}
	switch {
	case err != nil:
		r.word = sentence(err)
		if r.step == typingValue {
			r.value = line{}
		}
	case r.step == typingReason:
		return r, keep{code: r.code, fact: f}
	default:
		return r.propose(f), nil
	}
	return r, nil
}

// propose goes on to the reason, unless the value looks like a slip and was not
// typed a second time.
func (r record) propose(f batch.Fact) record {
	words := r.plan.Doubt(f)
	if words == "" || r.doubt != nil && r.doubt.fact == f {
		r.step, r.doubt = typingReason, nil
		return r
	}
	r.doubt, r.value = &doubted{f, words}, line{}
	return r
}

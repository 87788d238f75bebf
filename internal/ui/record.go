package ui

import (
	"slices"
	"time"

	"bench/internal/batch"
	"bench/internal/steps"
	"bench/internal/timer"

	"github.com/charmbracelet/bubbles/key"
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
		r.step, r.value, r.reason = typingValue, line{}, line{}
	}
	return r, nil
}

// confirm goes from the value to the reason, and from there to the fact.
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
	case r.step == typingValue:
		r.step = typingReason
	default:
		return r, keep{code: r.code, fact: f}
	}
	return r, nil
}

func (r record) help() []key.Binding {
	switch r.step {
	case typingValue:
		return []key.Binding{says(keys.Confirm, "then the reason"), keys.Back, keys.AidAnywhere}
	case typingReason:
		return []key.Binding{says(keys.Confirm, "keep the correction"), keys.Back, keys.AidAnywhere}
	case picking:
	}
	fix := says(keys.Confirm, "correct this")
	if !correctable(r.state.Entries[r.cursor].Fact) {
		fix = off(keys.Confirm, "no value")
	}
	return []key.Binding{shown("↑ ↓", "choose"), fix, keys.Back, keys.Aid, keys.Keys}
}

func (r record) view(t Theme, w, rows int, now timer.Moment) []string {
	head := []string{
		" " + between(t.title.Render("Record of batch "+clean(r.code)), t.quiet.Render("first values stay, with the reason for the new one")+" ", w-1),
		t.line.Render(rule(w)),
	}
	foot := []string{t.line.Render(rule(w))}
	foot = append(foot, r.fields(t, w)...)
	word := ""
	if r.word != "" {
		word = " " + t.off.Render(cut(signOff+" "+r.word, w-2))
	}
	foot = append(foot, word, helpLine(t, w, r.help()...))
	room := rows - len(head) - len(foot)
	from, to := window(len(r.state.Entries), r.cursor, room)
	lines := make([]string, 0, room)
	for i := from; i < to; i++ {
		lines = append(lines, r.entry(t, w, i, now))
	}
	return slices.Concat(head, block(lines, w, room), foot)
}

func (r record) entry(t Theme, w, i int, now timer.Moment) string {
	e := r.state.Entries[i]
	text := cut(right(stamp(e.At, now, r.at), 12)+"  "+clean(r.plan.Say(e, r.state)), w-4)
	switch {
	case i == r.cursor:
		return " " + t.accent.Render(signNow) + " " + t.strong.Render(text)
	case correctable(e.Fact):
		return "   " + text
	}
	return "   " + t.quiet.Render(text)
}

// chosen is the entry at the cursor in full.
func (r record) chosen(t Theme, w int) []string {
	var lines []string
	for _, l := range wrap(clean(r.plan.Say(r.state.Entries[r.cursor], r.state)), w-2) {
		lines = append(lines, " "+t.quiet.Render(l))
	}
	return lines
}

// fields are the two lines to fill in; the first value stays in sight above.
func (r record) fields(t Theme, w int) []string {
	value, reason := r.value.text(), r.reason.text()
	switch r.step {
	case picking:
		return block(r.chosen(t, w), w, 2)
	case typingValue:
		value = r.value.view(t, w-16)
	case typingReason:
		reason = r.reason.view(t, w-16)
	}
	return []string{
		" " + t.strong.Render(fit("new value", 12)) + value,
		" " + t.strong.Render(fit("why", 12)) + reason,
	}
}

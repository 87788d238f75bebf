package aside

import (
	"fmt"
	"slices"

	"bench/internal/batch"
	"bench/internal/phrase"
	"bench/internal/reply"
	"bench/internal/timer"
	"bench/internal/ui/ink"
	"bench/internal/ui/keys"

	"github.com/charmbracelet/bubbles/key"
)

func (r Record) help() []key.Binding {
	switch r.step {
	case typingValue:
		return []key.Binding{keys.Says(keys.Confirm, "then the reason"), keys.Back, keys.AidAnywhere}
	case typingReason:
		if r.takes {
			return []key.Binding{keys.Says(keys.Confirm, "take it back"), keys.Back, keys.AidAnywhere}
		}
		return []key.Binding{keys.Says(keys.Confirm, "keep the correction"), keys.Back, keys.AidAnywhere}
	case picking:
	}
	e := r.state.Entries[r.cursor]
	fix, take := keys.Says(keys.Confirm, "correct this"), keys.TakeBack
	switch {
	case r.plan.Closed:
		fix, take = keys.Off(keys.Confirm, "the batch is ended"), keys.Off(keys.TakeBack, "ended")
	case r.state.Withdrawn(e.Seq):
		fix, take = keys.Off(keys.Confirm, "it was taken back"), keys.Off(keys.TakeBack, "taken back")
	case !reply.Correctable(e.Fact):
		fix = keys.Off(keys.Confirm, "it holds no value")
	}
	if !r.plan.Closed && batch.Withdrawable(e.Fact) != "" {
		take = keys.Off(keys.TakeBack, "it stays")
	}
	return []key.Binding{keys.Shown("↑ ↓", "choose"), fix, take, keys.Back, keys.Aid, keys.Keys}
}

// View is the record in rows lines of w cells, the picked fact in sight.
func (r Record) View(t ink.Theme, w, rows int, now timer.Moment) []string {
	head := []string{
		" " + ink.Between(t.Title.Render("Record of batch "+ink.Clean(r.code)), t.Quiet.Render("first values stay, with the reason for the new one")+" ", w-1),
		t.Line.Render(ink.Rule(w)),
	}
	foot := []string{t.Line.Render(ink.Rule(w))}
	foot = append(foot, r.fields(t, w)...)
	foot = append(foot, r.Words(t, w)...)
	foot = append(foot, keys.HelpLine(t, w, r.help()...))
	room := rows - len(head) - len(foot)
	body := ink.Pair(t.Line, w, room, func(w int) []string {
		from, to := ink.Window(len(r.state.Entries), r.cursor, room)
		lines := make([]string, 0, room)
		for i := from; i < to; i++ {
			lines = append(lines, r.entry(t, w, i, now))
		}
		return lines
	}, func(w int) []string { return r.large(t, w, room) })
	return slices.Concat(head, body, foot)
}

// large is the entry at the cursor, or the value that is typed for it, to be read
// from afar.
func (r Record) large(t ink.Theme, w, room int) []string {
	e := r.state.Entries[r.cursor]
	lines := append([]string{"", "  " + t.Quiet.Render(fmt.Sprintf("no. %d", e.Seq)), ""}, ink.Headline(t.Strong, reply.Said(r.plan, r.state, e), w, room, 3)...)
	for _, l := range ink.Wrap(reply.Said(r.plan, r.state, e), w-3) {
		lines = append(lines, "  "+l)
	}
	if value := r.value.Text(); value != "" && r.step != picking {
		lines = append(lines, "", "  "+t.Quiet.Render("new value"), "")
		lines = append(lines, ink.Figured(t.Accent, value, ink.Weight, "", "", w, room)...)
	}
	return lines
}

func (r Record) entry(t ink.Theme, w, i int, now timer.Moment) string {
	e := r.state.Entries[i]
	sign := " "
	switch {
	case r.state.Withdrawn(e.Seq):
		sign = ink.SignSkipped
	case reply.Standing(r.state, e) != nil:
		sign = ink.SignCorrected
	}
	text := ink.Cut(fmt.Sprintf("%3d %s %s  %s", e.Seq, sign, ink.Right(phrase.Stamp(e.At, now, r.at), r.stampWidth(now)), reply.Said(r.plan, r.state, e)), w-3)
	switch {
	case i == r.cursor:
		return " " + t.Accent.Render(ink.SignNow) + " " + t.Strong.Render(text)
	case reply.Correctable(e.Fact):
		return "   " + text
	}
	return "   " + t.Quiet.Render(text)
}

// stampWidth is what the times take: those of today are short.
func (r Record) stampWidth(now timer.Moment) int {
	widest := 0
	for _, e := range r.state.Entries {
		widest = max(widest, ink.Width(phrase.Stamp(e.At, now, r.at)))
	}
	return widest
}

// Words are a doubt or a refusal, whole.
func (r Record) Words(t ink.Theme, w int) []string {
	switch {
	case r.Word != "":
		return ink.Warning(t, r.Word, w)
	case r.doubt != nil && r.step == typingValue && r.value.Text() == "":
		return ink.Warning(t, ink.Clean(r.doubt.Asks()), w)
	}
	return []string{""}
}

// chosen is the entry at the cursor in full.
func (r Record) chosen(t ink.Theme, w int) []string {
	var lines []string
	for _, l := range ink.Wrap(reply.Said(r.plan, r.state, r.state.Entries[r.cursor]), w-2) {
		lines = append(lines, " "+t.Quiet.Render(l))
	}
	return lines
}

// fields are the lines to fill in, below what they are about.
func (r Record) fields(t ink.Theme, w int) []string {
	value, reason := r.value.Text(), r.reason.Text()
	switch r.step {
	case picking:
		lines := r.chosen(t, w)
		return ink.Block(lines, w, max(2, len(lines)))
	case typingValue:
		value = r.value.View(t, w-16)
	case typingReason:
		reason = r.reason.View(t, w-16)
	}
	e := r.state.Entries[r.cursor]
	if r.takes {
		return append(about(t, w, e.Seq, reply.Said(r.plan, r.state, e)),
			" "+t.Strong.Render(ink.Fit("it was not so", 14))+t.Quiet.Render("it stays in the record, and counts no more"),
			" "+t.Strong.Render(ink.Fit("why", 14))+reason)
	}
	return append(about(t, w, e.Seq, ink.Clean(reply.ValuePrompt(r.plan, r.state, e))),
		" "+t.Strong.Render(ink.Fit("new value", 12))+value,
		" "+t.Strong.Render(ink.Fit("why", 12))+reason)
}

// about says which entry the fields are about, whole.
func about(t ink.Theme, w, seq int, words string) []string {
	lines := ink.Wrap(fmt.Sprintf("no. %d  %s", seq, words), w-2)
	for i, l := range lines {
		lines[i] = " " + t.Quiet.Render(l)
	}
	return lines
}

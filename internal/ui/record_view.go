package ui

import (
	"fmt"
	"slices"
	"strings"

	"bench/internal/batch"
	"bench/internal/steps"
	"bench/internal/timer"

	"github.com/charmbracelet/bubbles/key"
)

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
	foot = append(foot, r.words(t, w)...)
	foot = append(foot, helpLine(t, w, r.help()...))
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
	sign := " "
	if r.standing(e) != nil {
		sign = signCorrected
	}
	text := cut(fmt.Sprintf("%3d %s %s  %s", e.Seq, sign, right(stamp(e.At, now, r.at), r.stampWidth(now)), r.said(e)), w-3)
	switch {
	case i == r.cursor:
		return " " + t.accent.Render(signNow) + " " + t.strong.Render(text)
	case correctable(e.Fact):
		return "   " + text
	}
	return "   " + t.quiet.Render(text)
}

// said puts an entry into words; one that was corrected says what stands now, and
// what was said first.
func (r record) said(e batch.Entry) string {
	with := r.standing(e)
	if with == nil {
		return clean(r.plan.Say(e, r.state))
	}
	return clean(fmt.Sprintf("now %s (corrected; first %s): %s", valueOf(with), valueOf(e.Fact), r.plan.Say(batch.Entry{Fact: with}, r.state)))
}

// stampWidth is what the times take: those of today are short.
func (r record) stampWidth(now timer.Moment) int {
	widest := 0
	for _, e := range r.state.Entries {
		widest = max(widest, width(stamp(e.At, now, r.at)))
	}
	return widest
}

// standing gives what stands in the place of an entry that was corrected, or
// nil.
func (r record) standing(e batch.Entry) batch.Fact {
	for _, later := range slices.Backward(r.state.Entries) {
		if c, ok := later.Fact.(batch.Corrected); ok && c.Seq == e.Seq && c.With != nil {
			return c.With
		}
	}
	return nil
}

// valueOf gives the value that a fact holds, with its unit.
func valueOf(f batch.Fact) string {
	switch f := f.(type) {
	case batch.Weighed:
		return f.Mass.At(f.Reads) + " g"
	case batch.Grossed:
		return f.Gross.At(f.Reads) + " g"
	case batch.TemperatureTaken:
		return f.Temperature.String()
	default:
		return ""
	}
}

// prompt says what is asked for, in which unit, and what stood there before.
func (r record) prompt() string {
	e := r.state.Entries[r.cursor]
	f := r.standing(e)
	if f == nil {
		f = e.Fact
	}
	switch f := f.(type) {
	case batch.Weighed:
		what := f.Material + ", g"
		if t, _, ok := r.plan.Task(f.Task); ok && t.Do == steps.Portion {
			what = t.Title + ", net g"
		}
		return fmt.Sprintf("%s (was %s, asked %s)", what, f.Mass.At(f.Reads), f.Target.At(f.Reads))
	case batch.Grossed:
		asked := ""
		if t, _, ok := r.plan.Task(f.Task); ok {
			asked = ", asked " + t.Target.At(f.Reads)
		}
		return fmt.Sprintf("%s: the whole weight, vessel included, g (was %s%s)", f.Vessel, f.Gross.At(f.Reads), asked)
	case batch.TemperatureTaken:
		return fmt.Sprintf("%s, °C (was %s)", strings.Replace(f.Task, "/", ", ", 1), f.Temperature)
	default:
		return ""
	}
}

// words are a doubt or a refusal, whole.
func (r record) words(t Theme, w int) []string {
	switch {
	case r.word != "":
		return warning(t, r.word, w)
	case r.doubt != nil && r.step == typingValue && r.value.text() == "":
		return warning(t, clean(r.doubt.words)+". Right? Then type it again.", w)
	}
	return []string{""}
}

// chosen is the entry at the cursor in full.
func (r record) chosen(t Theme, w int) []string {
	var lines []string
	for _, l := range wrap(r.said(r.state.Entries[r.cursor]), w-2) {
		lines = append(lines, " "+t.quiet.Render(l))
	}
	return lines
}

// fields are the two lines to fill in, below what they are about.
func (r record) fields(t Theme, w int) []string {
	value, reason := r.value.text(), r.reason.text()
	switch r.step {
	case picking:
		lines := r.chosen(t, w)
		return block(lines, w, max(2, len(lines)))
	case typingValue:
		value = r.value.view(t, w-16)
	case typingReason:
		reason = r.reason.view(t, w-16)
	}
	return []string{
		" " + t.quiet.Render(cut(fmt.Sprintf("no. %d  %s", r.state.Entries[r.cursor].Seq, clean(r.prompt())), w-2)),
		" " + t.strong.Render(fit("new value", 12)) + value,
		" " + t.strong.Render(fit("why", 12)) + reason,
	}
}

package aside

import (
	"fmt"
	"slices"
	"strings"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/steps"
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
		return []key.Binding{keys.Says(keys.Confirm, "keep the correction"), keys.Back, keys.AidAnywhere}
	case picking:
	}
	fix := keys.Says(keys.Confirm, "correct this")
	if !correctable(r.state.Entries[r.cursor].Fact) {
		fix = keys.Off(keys.Confirm, "no value")
	}
	return []key.Binding{keys.Shown("↑ ↓", "choose"), fix, keys.Back, keys.Aid, keys.Keys}
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
	from, to := ink.Window(len(r.state.Entries), r.cursor, room)
	lines := make([]string, 0, room)
	for i := from; i < to; i++ {
		lines = append(lines, r.entry(t, w, i, now))
	}
	return slices.Concat(head, ink.Block(lines, w, room), foot)
}

func (r Record) entry(t ink.Theme, w, i int, now timer.Moment) string {
	e := r.state.Entries[i]
	sign := " "
	if r.standing(e) != nil {
		sign = ink.SignCorrected
	}
	text := ink.Cut(fmt.Sprintf("%3d %s %s  %s", e.Seq, sign, ink.Right(ink.Stamp(e.At, now, r.at), r.stampWidth(now)), r.said(e)), w-3)
	switch {
	case i == r.cursor:
		return " " + t.Accent.Render(ink.SignNow) + " " + t.Strong.Render(text)
	case correctable(e.Fact):
		return "   " + text
	}
	return "   " + t.Quiet.Render(text)
}

// said puts an entry into words; one that was corrected says what stands now, and
// what was said first.
func (r Record) said(e batch.Entry) string {
	with := r.standing(e)
	if with == nil {
		return ink.Clean(r.plan.Say(e, r.state))
	}
	return ink.Clean(fmt.Sprintf("now %s (corrected; first %s): %s", valueOf(with), valueOf(e.Fact), r.plan.Say(batch.Entry{Fact: with}, r.state)))
}

// stampWidth is what the times take: those of today are short.
func (r Record) stampWidth(now timer.Moment) int {
	widest := 0
	for _, e := range r.state.Entries {
		widest = max(widest, ink.Width(ink.Stamp(e.At, now, r.at)))
	}
	return widest
}

// standing gives what stands in the place of an entry that was corrected, or
// nil.
func (r Record) standing(e batch.Entry) batch.Fact {
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
		return restValueOf(f)
	}
}

// restValueOf is valueOf for facts that follow the pour.
func restValueOf(f batch.Fact) string {
	switch f := f.(type) {
	case batch.BarsCut:
		return ink.Count(f.Bars, "bar", "bars")
	case batch.BarsWeighed:
		if f.Count > 1 {
			return fmt.Sprintf("%d x %s", f.Count, f.Mass.At(f.Reads))
		}
		return f.Mass.At(f.Reads) + " g"
	case batch.SetAside:
		return f.Mass.At(quantity.Gram/10) + " g"
	case batch.WeighedIn:
		return f.Mass.At(f.Reads) + " g"
	case batch.Tested:
		if f.Test == batch.FreeAlkaliTest {
			return fmt.Sprintf("%.2f %%", f.Value)
		}
		return fmt.Sprintf("pH %.1f", f.Value)
	default:
		return ""
	}
}

// prompt says what is asked for, in which unit, and what stood there before.
func (r Record) prompt() string {
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
	case batch.BarsCut, batch.BarsWeighed, batch.SetAside, batch.WeighedIn, batch.Tested:
		return fmt.Sprintf("%s (was %s)", strings.Replace(batch.Task(f), "/", ", ", 1), restValueOf(f))
	default:
		return ""
	}
}

// Words are a doubt or a refusal, whole.
func (r Record) Words(t ink.Theme, w int) []string {
	switch {
	case r.Word != "":
		return ink.Warning(t, r.Word, w)
	case r.doubt != nil && r.step == typingValue && r.value.Text() == "":
		return ink.Warning(t, ink.Clean(r.doubt.Words)+". Right? Then type it again.", w)
	}
	return []string{""}
}

// chosen is the entry at the cursor in full.
func (r Record) chosen(t ink.Theme, w int) []string {
	var lines []string
	for _, l := range ink.Wrap(r.said(r.state.Entries[r.cursor]), w-2) {
		lines = append(lines, " "+t.Quiet.Render(l))
	}
	return lines
}

// fields are the two lines to fill in, below what they are about.
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
	return []string{
		" " + t.Quiet.Render(ink.Cut(fmt.Sprintf("no. %d  %s", r.state.Entries[r.cursor].Seq, ink.Clean(r.prompt())), w-2)),
		" " + t.Strong.Render(ink.Fit("new value", 12)) + value,
		" " + t.Strong.Render(ink.Fit("why", 12)) + reason,
	}
}

package ui

import (
	"slices"
	"strings"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/steps"
	"bench/internal/timer"
)

// list shows the stage's tasks around the one at hand; portions as bars.
func (p panel) list(room int) []string {
	if room < 1 || len(p.stage.Tasks) < 2 {
		return nil
	}
	tasks := p.stage.Tasks
	var lines []string
	if s := p.splitLine(); s != "" {
		lines = append(lines, s)
		if tasks[0].Done {
			tasks = tasks[1:] // The line above says what the pot weighed.
		}
	}
	if len(lines)+len(tasks) < room {
		lines = append([]string{""}, lines...)
	}
	at := slices.IndexFunc(tasks, func(t steps.Task) bool { return t.ID == p.task.ID })
	from, to := window(len(tasks), at, max(0, room-len(lines)))
	longest := p.longestPortion()
	for _, t := range tasks[from:to] {
		if t.Do == steps.Portion {
			lines = append(lines, p.bar(t, longest))
		} else {
			lines = append(lines, p.item(t))
		}
	}
	return lines
}

func (p panel) sign(t steps.Task) string {
	switch {
	case p.b.sending == t.ID:
		return signSaving
	case p.b.unsaved != nil && batch.Task(p.b.unsaved.keep.fact) == t.ID:
		return p.t.off.Render(signOff)
	case t.ID == p.task.ID:
		return p.t.accent.Render(signNow)
	case t.Skipped != "":
		return signSkipped
	case t.Done:
		return p.t.good.Render(signDone)
	case t.Open:
		return signOpen
	}
	return signLater
}

// item is one task of the list: sign, title, what is asked or what it was.
func (p panel) item(t steps.Task) string {
	value, note := "", ""
	switch {
	case p.b.unsaved != nil && batch.Task(p.b.unsaved.keep.fact) == t.ID:
		note = "not saved"
	case t.Skipped != "":
		note = "left out"
	case t.Done && (t.Do == steps.Weigh || t.Do == steps.Gross):
		value = t.Mass.At(t.Reads)
		if t.ByEye {
			note = "by eye"
		} else if t.Mass != t.Target && t.Do == steps.Weigh {
			note = "asked " + t.Target.At(t.Reads)
		}
	case t.Do == steps.Weigh:
		value = t.Target.At(t.Reads)
	}
	if value == "" && note == "" {
		return p.styled(t, " "+p.sign(t)+" ", cut(clean(t.Title), p.w-4))
	}
	name := fit(clean(t.Title), min(30, p.w-28))
	return p.styled(t, " "+p.sign(t)+" ", name+" "+right(value, 9)) + p.t.quiet.Render("  "+note)
}

func (p panel) styled(t steps.Task, sign, text string) string {
	if t.ID == p.task.ID {
		return sign + p.t.strong.Render(text)
	}
	if t.Done {
		return sign + p.t.quiet.Render(text)
	}
	return sign + text
}

// splitLine sums a split up: gross, vessel, net.
func (p panel) splitLine() string {
	if p.stage.Kind != steps.Split && p.stage.Kind != steps.SplitLayers || len(p.stage.Tasks) == 0 {
		return ""
	}
	g := p.stage.Tasks[0]
	gross, word := g.Target, " expected"
	if g.Done {
		gross, word = g.Mass, ""
	}
	return " " + p.t.quiet.Render("gross ") + gross.At(g.Reads) + p.t.quiet.Render("  − vessel ") + g.Tare.At(g.Reads) +
		p.t.quiet.Render("  = net ") + p.t.strong.Render((gross - g.Tare).At(g.Reads)) + p.t.quiet.Render(word)
}

func (p panel) longestPortion() quantity.Mass {
	longest := quantity.Mass(1)
	for _, t := range p.stage.Tasks {
		if t.Do == steps.Portion {
			longest = max(longest, poured(t))
		}
	}
	return longest
}

// poured is what a portion weighs, or is to weigh.
func poured(t steps.Task) quantity.Mass {
	if t.Done {
		return t.Mass
	}
	return t.Target
}

// bar is a portion to scale, filled once it is poured, with its scent beside it.
func (p panel) bar(t steps.Task, longest quantity.Mass) string {
	scent := p.portionScent(t)
	room := max(4, p.w-3-20-9-width(scent)-3)
	n := int(int64(room) * int64(poured(t)) / int64(longest))
	fill := "░"
	if t.Done {
		fill = "█"
	}
	text := fit(clean(strings.TrimPrefix(t.Title, "Portion for ")), 8)
	if p.stage.Kind == steps.SplitLayers {
		text = fit(clean(strings.TrimPrefix(t.Title, "Pour out for ")), 8)
	}
	return p.styled(t, " "+p.sign(t)+" ", text) + " " + fit(strings.Repeat(fill, n), room) +
		right(poured(t).At(t.Reads), 9) + p.t.quiet.Render("  "+scent)
}

// portionScent says what goes into this portion.
func (p panel) portionScent(t steps.Task) string {
	n := -1
	for _, each := range p.stage.Tasks {
		if each.Do == steps.Portion {
			n++
		}
		if each.ID == t.ID {
			break
		}
	}
	for _, l := range p.b.plan.Layers {
		if l.Name != p.stage.Layer {
			continue
		}
		sum := quantity.Mass(0)
		for _, s := range l.Scents {
			if n >= 0 && n < len(s.Portions) {
				sum += s.Portions[n]
			}
		}
		if sum > 0 {
			return "scent " + sum.At(tenth)
		}
	}
	return ""
}

// notSaved says what is not in the record, why, and what can be done.
func (p panel) notSaved() []string {
	u := p.b.unsaved
	lines := []string{
		" " + p.t.alarm.Render(" NOT SAVED "), "",
		" " + p.t.strong.Render(cut(clean(p.b.plan.Say(batch.Entry{Fact: u.keep.fact, At: u.keep.at}, p.b.state)), p.w-2)), "",
	}
	for _, l := range wrap(sentence(errorText(u.why)), p.w-2) {
		lines = append(lines, " "+l)
	}
	lines = append(lines, "",
		" "+p.t.key.Render("r")+"    saves it again, with the time it was said",
		" "+p.t.key.Render("esc")+"  lets it go: it will not be in the record")
	if !p.any {
		return lines
	}
	return append(lines, p.list(p.h-len(lines))...)
}

type errorText string

func (e errorText) Error() string { return string(e) }

// whereYouWere restates what was last done, and when, before going on.
func (p panel) whereYouWere() []string {
	lines := []string{"", " " + p.t.title.Render("Where you were"), ""}
	entries := p.b.state.Entries
	for i := max(0, len(entries)-2); i < len(entries); i++ {
		for n, l := range wrap(p.b.said(entries[i], p.now), p.w-5) {
			head := "   "
			if n == 0 {
				head = " " + p.t.good.Render(signDone) + " "
			}
			lines = append(lines, head+l)
		}
	}
	lines = append(lines, "", " "+p.t.title.Render("Next"), "")
	if !p.any {
		return append(lines, " "+p.t.quiet.Render("nothing to do just now"))
	}
	next := clean(p.task.Title)
	if number, unit := p.asked(); number != "" {
		next += "   " + number + " " + unit
	}
	lines = append(lines, " "+p.t.accent.Render(signNow+" "+cut(next, p.w-4)))
	if where := p.where(); where != "" {
		lines = append(lines, "   "+p.t.quiet.Render(where))
	}
	return append(lines, "", "", " "+"Look at what stands on the scale.", " "+p.t.key.Render("enter")+" goes on")
}

// nothing is shown when no task can be done: all is done, or a timer runs.
func (p panel) nothing() []string {
	head, text := "Nothing to do just now", "The batch waits for a timer. Leave with q: it stays open, and the timers go on."
	switch {
	case p.b.plan.Closed:
		head, text = "This batch is closed", "Notes can still be added with n. esc goes to the first screen."
	case p.b.plan.Finished():
		head, text = "Everything is done", "e closes the batch. The record stays."
	}
	lines := []string{"", " " + p.t.title.Render(head), ""}
	for _, l := range wrap(text, p.w-2) {
		lines = append(lines, " "+p.t.quiet.Render(l))
	}
	lines = append(lines, "")
	for _, each := range p.b.plan.Timers {
		if each.State(p.now) != timer.Acknowledged {
			when := each.Say(p.now)
			lines = append(lines, " "+signLater+" "+between(cut(clean(each.Label), p.w-6-width(when)), when+" ", p.w-4))
		}
	}
	return lines
}

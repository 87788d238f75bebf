package ui

import (
	"bench/internal/batch"
	"bench/internal/timer"
)

// notSaved says what is not in the record, why, and what can be done.
func (p panel) notSaved() []string {
	u := p.b.unsaved
	lines := []string{
		" " + p.t.alarm.Render(" NOT SAVED "), "",
	}
	for _, l := range wrap(clean(p.b.plan.Say(batch.Entry{Fact: u.keep.fact, At: u.keep.at}, p.b.state)), p.w-2) {
		lines = append(lines, " "+p.t.strong.Render(l))
	}
	lines = append(lines, "")
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
		gone, _ := p.now.Since(entries[i].At)
		for n, l := range wrap(p.b.said(entries[i], p.now)+" ("+timer.Words(gone)+" ago)", p.w-5) {
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
			when, sign := timing(each, p.now, p.b.at), signLater
			if each.State(p.now) == timer.Due {
				sign = p.t.off.Render(signOff)
			}
			label := wrap(clean(each.Label), p.w-4)
			if last := label[len(label)-1]; width(last)+width(when)+5 <= p.w {
				label[len(label)-1] = between(last, when+" ", p.w-4)
			} else {
				label = append(label, right(when+" ", p.w-4))
			}
			for i, l := range label {
				lines = append(lines, " "+[]string{sign, " "}[min(i, 1)]+" "+l)
			}
		}
	}
	return lines
}

package bench

import (
	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/phrase"
	"bench/internal/reply"
	"bench/internal/say"
	"bench/internal/tell"
	"bench/internal/timer"
	"bench/internal/ui/after"
	"bench/internal/ui/ink"
)

// notSaved says what is not in the record, why, and what can be done.
func (p panel) notSaved() []string {
	u := p.b.Unsaved
	lines := []string{
		" " + p.t.Alarm.Render(" NOT SAVED "), "",
	}
	for _, l := range ink.Wrap(ink.Clean(say.Fact(batch.Entry{Fact: u.keep.Fact, At: u.keep.At}, p.b.Plan, p.b.State)), p.w-2) {
		lines = append(lines, " "+p.t.Strong.Render(l))
	}
	lines = append(lines, "")
	for _, l := range ink.Wrap(phrase.Sentence(errorText(u.why)), p.w-2) {
		lines = append(lines, " "+l)
	}
	lines = append(lines, "",
		" "+p.t.Key.Render("r")+"    saves it again, with the time it was said",
		" "+p.t.Key.Render("esc")+"  lets it go: it will not be in the record")
	if !p.any {
		return lines
	}
	return append(lines, p.list(p.h-len(lines))...)
}

type errorText string

func (e errorText) Error() string { return string(e) }

// saidAgo is a fact with how long ago it was.
func (b Screen) saidAgo(p panel, e batch.Entry) []string {
	gone, _ := p.now.Since(e.At)
	lines := ink.Wrap(b.said(e, p.now)+" ("+timer.Words(gone)+" ago)", p.w-5)
	for i, l := range lines {
		head := "   "
		if i == 0 {
			head = " " + p.t.Good.Render(signOf(e.Fact)) + " "
		}
		lines[i] = head + l
	}
	return lines
}

// nothingWords say why no task can be done: all is done, or a timer runs.
func (p panel) nothingWords() (head, text string) {
	which, remedy := judge.Overheats(p.b.Plan)
	head, text = "Nothing to do just now", "The batch waits for a timer. Leave with q: it stays open, and the timers go on."
	switch words := reply.StillFull(p.b.Plan); {
	case p.b.Plan.Closed && len(p.b.Plan.Since()) > 0:
		head, text = "A warning opened after the release", tell.Sentences(p.b.Plan.Since())+" "+p.b.Plan.Curing().Out()+" c: hold what is left, or let the release stand."
	case words != "":
		head, text = "This batch has ended", "Vessels are "+ink.Clean(words)+". e says what is empty by now; then it is closed. Notes can still be added with n."
	case p.b.Plan.Closed:
		head, text = "This batch is closed", "Notes can still be added with n, complaints and where bars went with c. esc goes to the first screen."
	case which != "":
		head, text = "It overheats: "+which, remedy
	case p.inCure():
		head, text = "In cure", "A marked bar may be weighed at any time, and another one marked: ← goes to the stage."
	case p.b.Plan.Finished():
		head, text = "Everything is done", "e closes the batch. The record stays."
	case len(reply.AskedElsewhere(p.others, p.now)) > 0:
		head, text = "Nothing to do on this batch", "It waits for a timer. Another batch asks for you:"
	}
	return head, text
}

// nothing is shown when no task can be done, with what is waited for.
func (p panel) nothing() []string {
	head, text := p.nothingWords()
	lines := []string{"", " " + p.t.Title.Render(head), ""}
	for _, l := range ink.Wrap(text, p.w-2) {
		lines = append(lines, " "+p.t.Quiet.Render(l))
	}
	lines = append(append(lines, ""), p.elsewhere()...)
	for _, each := range p.b.Plan.Timers {
		if each.State(p.now) != timer.Acknowledged {
			when, sign := phrase.Timing(each, p.now, p.b.at), ink.SignLater
			if each.State(p.now) == timer.Due {
				sign = p.t.Off.Render(ink.SignOff)
			}
			label := ink.Wrap(ink.Clean(each.Label), p.w-4)
			if last := label[len(label)-1]; ink.Width(last)+ink.Width(when)+5 <= p.w {
				label[len(label)-1] = ink.Between(last, when+" ", p.w-4)
			} else {
				label = append(label, ink.Right(when+" ", p.w-4))
			}
			for i, l := range label {
				lines = append(lines, " "+[]string{sign, " "}[min(i, 1)]+" "+l)
			}
		}
	}
	if p.inCure() {
		lines = append(lines, "")
		lines = append(lines, after.Panel(p.t, p.b.Plan, p.w, p.h-len(lines), p.now, p.b.at)...)
	}
	return lines
}

// inCure says that bars are drying, and that nothing else is to be done.
func (p panel) inCure() bool {
	st, ok := p.b.Plan.Stage("cure")
	return ok && !st.Done && st.Blocked == "" && !p.b.Plan.Closed && !p.b.Plan.Curing().Cut.IsZero()
}

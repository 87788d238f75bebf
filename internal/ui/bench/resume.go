package bench

import (
	"cmp"

	"bench/internal/reply"
	"bench/internal/resume"
	"bench/internal/timer"
	"bench/internal/ui/ink"
	"bench/internal/ui/intent"
	"bench/internal/ui/keys"
	"bench/internal/work"
)

// resume takes the keys of a batch that was left and is opened again. Enter says
// that what stands on the scale is what should; nothing is ticked before that. A
// reading that is typed is held against the facts.
func (b Screen) resume(p keys.Press) (Screen, intent.Action) {
	b.Word = ""
	_, _, more := b.Current(p.At)
	r, figure := keys.Figure(p)
	if figure && more {
		if words := b.unread(p.At); words != "" {
			b.Word = words
			return b, nil
		}
		b.Typed = keys.WithFigure(b.Typed, r)
		return b, nil
	}
	switch {
	case b.Unsaved != nil:
		return b.updateUnsaved(p)
	case keys.Matches(p, keys.Erase) && b.Typed != "":
		b.Typed = b.Typed[:len(b.Typed)-1]
	case keys.Matches(p, keys.Back) && b.Typed != "":
		b.Typed = ""
	case keys.Matches(p, keys.Accept) && !p.Held && b.Typed != "":
		return b.checkScale(p)
	case keys.Matches(p, keys.Accept) && !p.Held:
		_, act := reply.KeepInAlready(b.Code, b.Plan, p.At)
		b.reopened = false
		return b, intent.Of(act)
	case keys.Matches(p, keys.LeaveOut) && !p.Held && b.offers(p.At):
		b.reopened = false
	case keys.Matches(p, keys.Note, keys.Correct, keys.WeighPot, keys.Face, keys.Switch, keys.Back):
		return b.move(p)
	case !more && (figure || !p.Held): // Nothing is next, so nothing waits for a word.
		b.reopened = false
		return b.Update(p)
	case !p.Held:
		b.Word = cmp.Or(b.unread(p.At), "First: enter, if that is what stands there; or type what the scale reads.")
	}
	return b, nil
}

// unread says why no reading is taken before going on, or "": nothing stands on a
// scale, or the task asks for that very reading.
func (b Screen) unread(now timer.Moment) string {
	t, _, _ := b.Current(now)
	switch _, ok := resume.OnScale(b.Plan, t.ID); {
	case !ok:
		return "Nothing need stand on a scale: enter goes on."
	case t.Do == work.Gross:
		return "It is weighed next: enter goes on to that."
	}
	return ""
}

// offers says that enter keeps what a vessel's weight found to be in it.
func (b Screen) offers(now timer.Moment) bool {
	_, act := reply.KeepInAlready(b.Code, b.Plan, now)
	return act != nil
}

// Stands says that a vessel with something in it should stand on the scale.
func (b Screen) Stands(now timer.Moment) bool {
	t, _, _ := b.Current(now)
	_, ok := resume.OnScale(b.Plan, t.ID)
	return ok && t.SoFar > 0
}

// Asks says that it asks where one was.
func (b Screen) Asks() bool { return b.reopened }

// Asking gives the screen that asks where one was before anything goes on.
func (b Screen) Asking() Screen {
	b.reopened = true
	return b
}

// checkScale compares a reading with what should be there.
func (b Screen) checkScale(p keys.Press) (Screen, intent.Action) {
	t, _, _ := b.Current(p.At)
	act, so, word := reply.OnScale(b.Code, b.Plan, t.ID, b.Typed)
	b.Typed, b.reopened, b.Word = "", !so, ink.Clean(word)
	return b, intent.Of(act)
}

// whereYouWere restates what was last done, and when, what is next, and what
// should stand on the scale, before going on.
func (p panel) whereYouWere() []string {
	lines := []string{" " + p.t.Title.Render("Where you were")}
	entries := p.b.State.Entries
	for i := max(0, len(entries)-2); i < len(entries); i++ {
		lines = append(lines, p.b.saidAgo(p, entries[i])...)
	}
	lines = append(lines, "")
	if !p.any {
		lines = append(lines, " "+p.t.Title.Render("Next")+"  "+p.t.Quiet.Render("nothing to do just now"), "")
		return append(append(lines, p.elsewhere()...), " "+p.t.Key.Render("enter")+" goes on")
	}
	if u, act := reply.KeepInAlready(p.b.Code, p.b.Plan, p.now); act != nil {
		return append(lines, p.inAlready(u)...)
	}
	next := ink.Clean(p.task.Title)
	if number, unit := reply.Asked(p.task, p.stage); number != "" {
		next += "   " + number + " " + unit
	}
	for _, l := range ink.Hang(" Next "+ink.SignNow, next, p.w-1) {
		lines = append(lines, p.t.Accent.Render(l))
	}
	if p.roomy() {
		lines = append(lines, "")
	}
	return append(lines, p.standing()...)
}

// notSo says that what was found in a vessel, or out of it, is not so.
func notSo(u resume.Unsaid) string {
	if u.Task.Do == work.Portion {
		return "not out"
	}
	return "not in"
}

// inAlready asks whether to keep what a vessel's weight found to be in it, with that
// weight large.
func (p panel) inAlready(u resume.Unsaid) []string {
	number, word := cmp.Or(p.b.Typed, u.Gross.At(u.Task.Reads)), "it read"
	says := " keeps " + u.Mass.Reading(u.Task.Reads) + "   " + p.t.Key.Render("x") + " " + notSo(u) + "   " + p.t.Key.Render("0-9") + " reads otherwise"
	if p.b.Typed != "" {
		word, says = "it reads", " holds it against the facts"
	}
	lines := append(ink.Warning(p.t, ink.Clean(reply.Found(u)), p.w), p.largeReading(number, word)...)
	return append(lines, " "+p.t.Key.Render("enter")+says)
}

// standing says which vessel should stand on the scale, and what the scale
// should read, large.
func (p panel) standing() []string {
	s, ok := resume.OnScale(p.b.Plan, p.task.ID)
	number, word := p.b.Typed, "it reads"
	if number == "" && s.Gross > 0 {
		number, word = s.Gross.At(s.Reads), "untared"
	}
	var lines []string
	switch {
	case !ok:
		lines = append(lines, " "+"Nothing need stand on a scale.")
	default:
		for _, l := range ink.Wrap("Now on "+ink.Clean(s.Scale)+": "+ink.Clean(s.Vessel)+", with what is in it", p.w-2) {
			lines = append(lines, " "+l)
		}
	}
	if number != "" {
		lines = append(lines, p.largeReading(number, word)...)
	}
	says := " goes on: so it is   " + p.t.Key.Render("0-9") + " it reads otherwise"
	switch {
	case p.b.Typed != "":
		says = " holds it against the facts"
	case !ok:
		says = " goes on"
	case p.task.Do == work.Gross:
		says = " goes on: it is weighed next"
	}
	if p.roomy() {
		lines = append(lines, "")
	}
	return append(lines, " "+p.t.Key.Render("enter")+says)
}

// largeReading is what a scale reads, or should, in large figures.
func (p panel) largeReading(number, word string) []string {
	style := p.t.Strong
	if p.b.Typed != "" {
		style = p.t.Accent
	}
	lines := []string{""}
	scale := p.scale("untared", number)
	for i, row := range ink.Big(number, scale) {
		side := ""
		switch i {
		case 5*scale - 3:
			side = p.t.Quiet.Render(word)
		case 5*scale - 1:
			side = p.t.Strong.Render("g")
		}
		lines = append(lines, "  "+style.Render(row)+"  "+side)
	}
	return lines
}

package bench

import (
	"strings"

	"bench/internal/batch"
	"bench/internal/phrase"
	"bench/internal/readback"
	"bench/internal/reply"
	"bench/internal/resume"
	"bench/internal/say"
	"bench/internal/ui/ink"
	"bench/internal/ui/keys"
	"bench/internal/work"
)

// order is what to do and where, and all of how where there is no number to go by.
func (p panel) order() []string {
	var lines []string
	for _, l := range ink.Wrap(ink.Clean(p.task.Title), p.w) {
		lines = append(lines, p.t.Accent.Render(l))
	}
	lines = append(lines, ink.Wrap(p.where(), p.w)...)
	if p.cautions() {
		lines = append(lines, p.caution()...)
	}
	return lines
}

// cautions says that how it is done must be in sight: there is no number to go by, and
// no list that is read back.
func (p panel) cautions() bool {
	return !p.task.Numeric() && (p.task.Do != work.Confirm || p.stage.Kind == work.Gate)
}

func (p panel) caution() []string {
	if p.task.Hint == "" {
		return nil
	}
	var lines []string
	for _, l := range ink.Wrap(ink.Clean(p.task.Hint), p.w) {
		lines = append(lines, p.t.Quiet.Render(l))
	}
	return lines
}

// plainFigures are the number as text, what was typed before what is asked.
func (p panel) plainFigures() []string {
	f := p.large()
	if f.number == "" {
		return nil
	}
	text := strings.TrimSpace(f.number + " " + f.unit + "  " + f.word)
	if p.b.Typed != "" && p.task.Do != work.Gross && p.askedNumber() != "" {
		text = f.number + " of " + p.askedNumber() + " " + f.unit
	}
	var lines []string
	for _, l := range ink.Wrap(text, p.w) {
		lines = append(lines, p.t.Strong.Render(l))
	}
	return lines
}

// largeFigures are the number in large figures, where they find room.
func (p panel) largeFigures() []string {
	f := p.large()
	reserve := max(ink.BigWidth(f.number, 1), ink.BigWidth(p.askedNumber(), 1))
	if f.number == "" || besideAt(f, 1, reserve)+ink.Width(f.unit) > p.w {
		return nil
	}
	return append(p.figures(f, 1, reserve), "")
}

// told is what is doubted, the answer to the last key, and below it what may not be
// forgotten.
func (p panel) told() []string { return append(p.answered(), p.unguarded()...) }

// unguarded says in few words that gloves, goggles and sleeves were left out.
func (p panel) unguarded() []string {
	if p.b.Plan.Unguarded() == "" {
		return nil
	}
	return ink.Wrap(ink.SignOff+" put on gloves, goggles, sleeves: lye burns", p.w)
}

func (p panel) answered() []string {
	var words []string
	switch {
	case p.b.Word != "":
		words = []string{ink.SignOff + " " + p.b.Word}
	case p.b.doubt != nil && p.b.Typed == "":
		return p.verdictLines()
	case p.b.sending != "":
		words = []string{ink.SignSaving + " saving"}
	}
	var lines []string
	for _, each := range words {
		lines = append(lines, ink.Wrap(each, p.w)...)
	}
	return lines
}

// smallVerdict is how what is typed compares.
func (p panel) smallVerdict() []string {
	if p.b.Typed == "" {
		return nil
	}
	return ink.Wrap(p.verdictWords(), p.w)
}

// smallReadings say what the scale reads untared.
func (p panel) smallReadings() []string {
	switch {
	case p.task.Do == work.Weigh && p.task.TareKnown:
		return ink.Wrap("not tared "+p.task.Untared().At(p.task.Reads), p.w)
	case p.task.Do == work.Portion:
		return ink.Wrap("reads now "+p.task.SoFar.At(p.task.Reads), p.w)
	}
	return nil
}

func (p panel) wrapped(text string) []string { return ink.Wrap(ink.Clean(text), p.w) }

// readBackWords are all that is read back, several on a line: what was asked is said
// where it was something else.
func (p panel) readBackWords() []string {
	var items []string
	for _, l := range readback.Of(p.b.Plan, p.task.ID) {
		items = append(items, readWords(l))
	}
	return ink.Packed(items, p.w)
}

func readWords(l readback.Line) string {
	sign := ink.SignDone
	if l.Off {
		sign = ink.SignOff
	}
	words := sign + " " + ink.Clean(l.What+" "+l.Was)
	if l.Asked != "" && !strings.HasPrefix(l.Was, l.Asked) {
		words += ", asked " + ink.Clean(l.Asked)
	}
	return words
}

// unsavedWords say what is not in the record, and why.
func (p panel) unsavedWords() []string {
	u := p.b.Unsaved
	words := say.Fact(batch.Entry{Fact: u.keep.Fact, At: u.keep.At}, p.b.Plan, p.b.State)
	return append(append(p.wrapped("NOT SAVED: "+words+"."), p.wrapped(phrase.Sentence(errorText(u.why)))...), "")
}

// whereWords say what was last done, what is next, and what should stand on the scale.
func (p panel) whereWords() []string {
	var lines []string
	if n := len(p.b.State.Entries); n > 0 {
		lines = ink.Wrap(signOf(p.b.State.Entries[n-1].Fact)+" "+p.b.said(p.b.State.Entries[n-1], p.now), p.w)
	}
	if !p.any {
		return append(append(lines, p.wrapped("Next: nothing to do just now")...), p.elsewhereWords()...)
	}
	if u, act := reply.KeepInAlready(p.b.Code, p.b.Plan, p.now); act != nil && p.b.Typed == "" {
		return append(lines, p.wrapped(ink.SignOff+" "+reply.Found(u))...)
	}
	lines = append(lines, p.wrapped("Next: "+p.task.Title)...)
	s, ok := resume.OnScale(p.b.Plan, p.task.ID)
	switch {
	case !ok:
		return append(lines, p.wrapped("Nothing need stand on a scale.")...)
	case p.b.Typed != "":
		return append(lines, p.wrapped(s.Scale+" reads "+p.b.Typed+" g")...)
	case s.Gross > 0 && p.task.Do != work.Gross:
		return append(lines, p.wrapped("Now on "+s.Scale+": "+s.Vessel+", untared "+s.Gross.Reading(s.Reads))...)
	}
	return append(lines, p.wrapped("Now on "+s.Scale+": "+s.Vessel)...)
}

// smallKeys are the keys that answer, in as many lines as they need.
func (p panel) smallKeys() []string { return keys.Small(p.t, p.w, p.b.smallHelp(p.now)...) }

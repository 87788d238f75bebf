package bench

import (
	"slices"
	"strings"

	"bench/internal/timer"
	"bench/internal/ui/ink"
	"bench/internal/ui/keys"
	"bench/internal/work"
)

// A window too small for the bench still says what is next: the order, the number to
// reach with its unit, and where it goes. Keys answer it only while all of that is in
// sight, and the keys that do with it.
const (
	narrowest = 20 // narrowest is the width from which keys answer.
	listsFrom = 60 // listsFrom is the width from which the other tasks are shown.
)

// Small is the batch in h lines of w cells, or more where that is not enough: then
// whole is false, and no key may be taken.
func (b Screen) Small(t ink.Theme, w, h int, alarms []string, now timer.Moment) (lines []string, whole bool) {
	task, stage, ok := b.Current(now)
	p := panel{t: t, b: b, now: now, task: task, stage: stage, any: ok, h: h, w: w, then: b.Plan}
	if p.plain() {
		return nil, false
	}
	least := slices.Concat(p.order(), p.plainFigures(), p.told(), p.smallKeys())
	if w < narrowest || len(least) > h || !p.answeredHere() {
		return slices.Concat(p.plainFigures(), p.order()), false
	}
	figures, more := p.plainFigures(), []string(nil)
	room := h - len(least)
	if large := p.largeFigures(); len(large) > 0 && len(large)-len(figures) <= room {
		room -= len(large) - len(figures)
		figures = large
	}
	for _, each := range [][]string{p.smallVerdict(), p.smallReadings(), alarms, p.caution()} {
		if len(each) <= room {
			more, room = append(more, each...), room-len(each)
		}
	}
	if w >= listsFrom && room > 1 {
		list := p.list(room)
		more, room = append(more, list...), room-len(list)
	}
	return slices.Concat(p.order(), figures, p.told(), more, make([]string, max(0, room)), p.smallKeys()), true
}

// answeredHere says that the task at hand is one that a small window is enough for.
func (p panel) answeredHere() bool {
	if !p.task.Open || rests(p.stage.Kind) {
		return false
	}
	switch p.task.Do {
	case work.Weigh, work.Portion, work.Gross, work.Temperature, work.Tick, work.Look:
		return true
	default:
		return false
	}
}

// SmallTakes says that a key answers in a window too small for the bench.
func (b Screen) SmallTakes(p keys.Press) bool {
	_, figure := keys.Figure(p)
	return figure || keys.Matches(p, keys.Tick, keys.Accept, keys.Erase) || keys.Matches(p, keys.Back) && (b.Typed != "" || b.doubt != nil)
}

// order is what to do and where, and all of how where there is no number to go by.
func (p panel) order() []string {
	var lines []string
	for _, l := range ink.Wrap(ink.Clean(p.task.Title), p.w) {
		lines = append(lines, p.t.Accent.Render(l))
	}
	lines = append(lines, ink.Wrap(p.where(), p.w)...)
	if !p.task.Numeric() {
		lines = append(lines, p.caution()...)
	}
	return lines
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
	if p.b.Typed != "" && p.task.Do != work.Gross {
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

// told is what is doubted, and the answer to the last key.
func (p panel) told() []string {
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

// smallKeys are the keys that answer, in as many lines as they need.
func (p panel) smallKeys() []string {
	var lines []string
	at := 0
	for _, each := range p.b.help(p.now) {
		if !slices.Contains([]string{keys.Tick.Help().Key, keys.Accept.Help().Key, keys.Figures.Help().Key}, each.Help().Key) {
			continue
		}
		name, does := each.Help().Key, strings.TrimRight(each.Help().Desc, " ")
		item, wide := p.t.Key.Render(name)+" "+does, ink.Width(name+does)+1
		if !each.Enabled() {
			item, wide = p.t.Quiet.Render("("+name+" "+does+")"), wide+2
		}
		if len(lines) > 0 && at+3+wide <= p.w {
			lines[len(lines)-1] += "   " + item
			at += 3 + wide
			continue
		}
		lines, at = append(lines, ink.Wrap(item, p.w)...), wide
	}
	return lines
}

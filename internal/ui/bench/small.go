package bench

import (
	"slices"

	"bench/internal/front"
	"bench/internal/timer"
	"bench/internal/ui/ink"
	"bench/internal/ui/keys"
	"bench/internal/work"

	"github.com/charmbracelet/bubbles/key"
)

// A window too small for the bench still says what is next: the order, the number to
// reach with its unit, and where it goes. Keys answer it only while all of that is in
// sight, and the keys that do with it.
const listsFrom = 60 // listsFrom is the width from which the other tasks are shown.

// Small is what a small window shows of the batch. A timer that is due comes before
// all that need not be there, as its first part.
func (b Screen) Small(t ink.Theme, w, h int, timer []string, due bool, others []front.UnderWay, now timer.Moment) ink.Small {
	p := b.panel(t, w, h, others, now)
	s := ink.Small{Needs: p.asked(p.plainFigures()), Keys: p.smallKeys()}
	s.Least = s.Needs
	if !p.numbered() {
		s.More = [][]string{timer}
		if p.any && p.task.Do == work.Confirm && !p.plain() && !p.cautions() {
			s.More = append(s.More, p.caution())
		}
		return s
	}
	s.Least = slices.Concat(p.plainFigures(), p.order())
	room := h - s.Rows()
	if due {
		s.More, room = [][]string{timer}, room-len(timer)
	}
	if large, plain := p.largeFigures(), p.plainFigures(); len(large) > 0 && len(large)-len(plain) <= room {
		s.Needs, room = p.asked(large), room-len(large)+len(plain)
	}
	s.More = append(s.More, p.smallVerdict(), p.smallReadings())
	if !due {
		s.More = append(s.More, timer)
	}
	if !p.cautions() { // Or it stands above.
		s.More = append(s.More, p.caution())
	}
	for _, each := range s.More {
		room -= len(each)
	}
	if due {
		room += len(timer)
	}
	if w >= listsFrom && room > 1 {
		s.More = append(s.More, p.list(room))
	}
	return s
}

// numbered says that what is asked is an order, with a number or without.
func (p panel) numbered() bool {
	return !p.plain() && !p.b.Along.On && p.task.Open && p.task.Do != work.Confirm
}

// asked is all that must be in sight before a key answers.
func (p panel) asked(figures []string) []string {
	switch {
	case p.b.Along.On:
		return slices.Concat(figures, p.order(), p.wrapped(p.b.Along.Words()), p.told())
	case p.b.Unsaved != nil:
		return slices.Concat(p.unsavedWords(), p.told())
	case p.b.reopened:
		return slices.Concat(p.whereWords(), p.told())
	case !p.any:
		head, _ := p.nothingWords()
		return slices.Concat(p.wrapped(head), p.elsewhereWords(), p.told())
	case !p.task.Open:
		return slices.Concat(p.order(), p.wrapped(ink.SignOff+" "+p.task.Waits), p.told())
	case p.task.Do == work.Confirm:
		return slices.Concat(p.order(), p.readBackWords(), p.told())
	}
	lines := slices.Concat(p.order(), figures)
	if p.stage.Kind == work.ReleaseTest || p.stage.Kind == work.Release {
		for _, each := range p.openWords() {
			lines = append(lines, p.wrapped(each)...)
		}
	}
	return append(lines, p.told()...)
}

// smallHelp are the keys that answer what is in sight, and no others.
func (b Screen) smallHelp(now timer.Moment) []key.Binding {
	var list []key.Binding
	for _, each := range b.help(now) {
		switch each.Help().Key {
		case keys.Tick.Help().Key, keys.Accept.Help().Key, keys.Figures.Help().Key, keys.Answers.Help().Key, keys.InWords.Help().Key, keys.LeaveOut.Help().Key, keys.Up.Help().Key:
			list = append(list, each)
		case keys.Retry.Help().Key, keys.Back.Help().Key:
			if b.Unsaved != nil {
				list = append(list, each)
			}
		}
	}
	return list
}

// SmallTakes says that a key answers in a window too small for the bench.
func (b Screen) SmallTakes(p keys.Press) bool {
	if keys.Matches(p, b.smallHelp(p.At)...) || keys.Matches(p, keys.Erase) || keys.Matches(p, keys.Back) && (b.Typed != "" || b.doubt != nil) {
		return true
	}
	_, figure := keys.Figure(p)
	return figure && !b.Along.On
}

package ui

import (
	"fmt"
	"slices"

	"bench/internal/ui/alarm"
	"bench/internal/ui/ink"
	"bench/internal/ui/intent"
	"bench/internal/ui/keys"
)

// smallPage is what a window too small for a page shows of it, and which of the keys
// that are not the page's own answer.
type smallPage struct {
	ink.Small
	alarms bool // alarms says that an alarm is in sight with its keys.
}

// smallPage gives the page as a small window shows it, without a line that the mark
// of practice takes; a page that has no small form needs nothing and does not fit.
func (m Model) smallPage(w, h int) smallPage {
	t, b := m.deps.Theme, m.board()
	if m.offer != (intent.PutOff{}) || m.page == intent.PageTimers {
		_, due := b.Foremost(t, w, m.now)
		return smallPage{m.timers.Small(t, w, b, m.now), due}
	}
	switch m.page {
	case intent.PageHome:
		return m.smallHome(w, h)
	case intent.PageBench:
		timer, due := b.Foremost(t, w, m.now)
		s := smallPage{m.bench.Small(t, w, h, timer, due, m.home.Others(m.bench.Code), m.now), due}
		if due && !s.Shown(0, h) {
			timer = showsAlarm(w)
			s = smallPage{m.bench.Small(t, w, h, timer, due, m.home.Others(m.bench.Code), m.now), false}
		}
		return s
	case intent.PageChoices:
		return smallPage{Small: m.choose.Small(t, w)}
	case intent.PageAsk:
		return smallPage{Small: m.ask.Small(t, w)}
	default:
		return smallPage{}
	}
}

// smallHome is the first screen, with an alarm or the key that shows it.
func (m Model) smallHome(w, h int) smallPage {
	timer, due := m.board().Foremost(m.deps.Theme, w, m.now)
	s := m.home.Small(m.deps.Theme, w, h, m.now)
	s.More = [][]string{timer}
	if due && !s.Shown(0, h) {
		due, timer = false, showsAlarm(w)
		s = m.home.Small(m.deps.Theme, w, h-len(timer), m.now)
		s.More = [][]string{timer}
	}
	return smallPage{s, due}
}

func showsAlarm(w int) []string {
	return ink.Wrap(ink.SignOff+" "+keys.Timers.Help().Key+" shows an alarm", w)
}

// smallRoom is the height that the page has: the mark of practice goes above it, not
// over the order.
func (m Model) smallRoom(h int) int {
	if m.deps.Practice.On() {
		return h - 1
	}
	return h
}

// smallLines are what a window too small for the page still shows. Where keys are not
// taken, because the person could only answer blind, it says so first, and which size
// would do.
func (m Model) smallLines(w, h int) []string {
	room := m.smallRoom(h)
	s := m.smallPage(w, room)
	mark := make([]string, h-room)
	if s.Fits(w, room) {
		return append(mark, s.Lines(room)...)
	}
	needs := m.wanted(s, w, h-room)
	keep := "everything said so far is kept, and what was being typed waits."
	if m.page == intent.PageSetup {
		keep = "nothing is begun yet, and esc goes back."
	}
	text := fmt.Sprintf("Make the window at least %s; it is %d by %d. Nothing is lost: %s F1 shows first aid, ctrl+c leaves.", needs, m.width, m.height, keep)
	lines := slices.Concat(mark, ink.Wrap(ink.SignOff+" no keys: needs "+needs, w), s.Least, ink.Wrap(text, w))
	if len(s.Needs) == 0 {
		timer, _ := m.board().Foremost(m.deps.Theme, w, m.now)
		lines = append(lines, timer...)
	}
	return lines
}

// wanted says which size would do: the page's own, or one that is nearer.
func (m Model) wanted(s smallPage, w, mark int) string {
	if w = max(w, ink.Narrowest); w < ink.MinWidth && len(s.Needs) > 0 {
		if rows := m.smallPage(w, 0).Rows() + mark; rows < ink.MinHeight {
			return fmt.Sprintf("%d by %d", w, rows)
		}
	}
	return fmt.Sprintf("%d by %d", ink.MinWidth, ink.MinHeight)
}

// blind says that a key would have to be pressed without seeing what it answers.
func (m Model) blind(p keys.Press) bool {
	if !m.small() {
		return false
	}
	room := m.smallRoom(m.height)
	s := m.smallPage(m.width, room)
	if !s.Fits(m.width, room) {
		return m.page != intent.PageSetup || !keys.Matches(p, keys.Back) // Nothing is begun there yet.
	}
	if s.alarms && keys.Matches(p, keys.Seen, keys.PutOff) && m.page != intent.PageAsk {
		return false
	}
	switch m.page {
	case intent.PageHome:
		return !m.home.SmallTakes(p) && !keys.Matches(p, keys.Timers)
	case intent.PageBench:
		return !m.bench.SmallTakes(p) && !keys.Matches(p, keys.Timers)
	case intent.PageChoices:
		return !m.choose.SmallTakes(p)
	case intent.PageTimers:
		return !keys.Matches(p, keys.Back, keys.Timers)
	default:
		return m.page != intent.PageAsk
	}
}

// offered hands a key to an alarm that waits for how long it is to be put off. In a
// small window the offer hides what any other key would have answered, so that such a
// key only calls it off.
func (m Model) offered(p keys.Press) (next Model, act intent.Action, taken bool) {
	room := m.smallRoom(m.height)
	open, hides := m.offer != (intent.PutOff{}), m.small()
	if hides && !m.smallPage(m.width, room).Fits(m.width, room) {
		return m, nil, false
	}
	m.offer, act, taken = alarm.Answer(m.offer, p)
	taken = taken || open && hides && !keys.Matches(p, keys.AidAnywhere, keys.Aid, keys.Quit, keys.Break)
	if taken {
		m = m.say("") // What was said of the key before is over.
	}
	return m, act, taken
}

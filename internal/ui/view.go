package ui

import (
	"fmt"
	"slices"

	"bench/internal/timer"
	"bench/internal/ui/alarm"
	"bench/internal/ui/aside"
	"bench/internal/ui/ink"
	"bench/internal/ui/intent"
	"bench/internal/ui/keys"
)

// View draws the screen that has the keys, with the timers below it.
func (m Model) View() string {
	if m.drawn != "" {
		return m.drawn
	}
	w, h := m.width, m.height
	if w <= 0 || h <= 0 {
		return ""
	}
	return ink.Screen(m.marked(m.lines(w, h), w), w, h)
}

// lines draws the page; first aid comes before everything, even in a window too
// small for the rest.
func (m Model) lines(w, h int) []string {
	t := m.deps.Theme
	switch {
	case m.page == intent.PageAid:
		return aside.AidLines(t, w, h)
	case m.small():
		return m.smallLines(w, h)
	}
	if m.page == intent.PageTimers {
		return m.timers.View(t, w, h, m.board(), m.now)
	}
	alarms := m.board().Lines(t, w, m.alarmRows(), m.now)
	if m.page == intent.PageBench {
		return m.bench.View(t, w, h, alarms, m.home.Others(m.bench.Code), m.now)
	}
	rows := h - len(alarms)
	var lines []string
	switch m.page {
	case intent.PageHome:
		h := m.home
		h.Above = m.board().Missed(t, w, m.ear.Opened(), m.now)
		lines = h.View(t, w, rows, m.now)
	case intent.PageSetup:
		lines = m.setup.View(t, w, rows)
	case intent.PageRecord:
		lines = m.record.View(t, w, rows, m.now)
	case intent.PageWays:
		lines = m.ways.View(t, w, rows)
	case intent.PagePot:
		lines = m.pot.View(t, w, rows)
	case intent.PageAsk:
		lines = m.ask.View(t, w, rows)
	case intent.PageFace:
		lines = m.faceLines(w, rows)
	case intent.PageChoices:
		lines = m.choose.View(t, w, rows)
	case intent.PageRack:
		lines = m.rack.View(t, w, rows, m.now)
	case intent.PageKeys:
		lines = keys.Page(t, w, rows)
	case intent.PageBench, intent.PageAid, intent.PageTimers:
	}
	// The timers stand above the word and the keys, as they do at the bench.
	return slices.Insert(lines, max(0, len(lines)-1-m.wordRows(w)), alarms...)
}

// faceLines show the cut face of what lies below: a batch, or a recipe.
func (m Model) faceLines(w, rows int) []string {
	if m.below == intent.PageSetup {
		return m.setup.FaceLines(m.deps.Theme, w, rows)
	}
	return m.bench.FaceLines(m.deps.Theme, w, rows, m.now)
}

// wordRows is how many lines the page's word takes above its keys.
func (m Model) wordRows(w int) int {
	t := m.deps.Theme
	switch m.page {
	case intent.PageHome:
		return len(m.home.Words(t, w))
	case intent.PageSetup:
		return len(m.setup.Words(t, w))
	case intent.PageRecord:
		return len(m.record.Words(t, w))
	case intent.PageRack:
		return len(m.rack.Words(t, w))
	default:
		return 0
	}
}

// alarmRows is how many timers are in sight at once.
func (m Model) alarmRows() int {
	if m.height >= ink.RoomyHeight {
		return 4
	}
	return 1
}

// smallLines are what a window too small for the page still shows. Where keys are not
// taken, because the person could only answer blind, it says so first.
func (m Model) smallLines(w, h int) []string {
	lines, whole := m.smallBench(w, h)
	if whole {
		return lines
	}
	text := fmt.Sprintf("Make the window at least %d by %d; it is %d by %d. Nothing is lost: everything said so far is kept, and what was being typed waits. F1 shows first aid, ctrl+c leaves.",
		ink.MinWidth, ink.MinHeight, m.width, m.height)
	lines = slices.Concat(ink.Wrap(ink.SignOff+" too small for keys", w), lines, ink.Wrap(text, w))
	return append(lines, m.firstTimer(w)...)
}

// smallBench is the batch in a window too small for the page; whole says that keys
// answer in it.
func (m Model) smallBench(w, h int) (lines []string, whole bool) {
	if m.page != intent.PageBench || m.bench.Along.On || m.offer != (intent.PutOff{}) {
		return nil, false
	}
	t := m.deps.Theme
	var mark []string
	if m.deps.Practice.On() {
		mark = []string{""} // The mark of practice goes there, not over the order.
	}
	lines, whole = m.bench.Small(t, w, h-len(mark), m.firstTimer(w), m.now)
	return append(mark, lines...), whole
}

// firstTimer is the timer that matters most, in words.
func (m Model) firstTimer(w int) []string {
	list := m.board().Timers(m.now)
	if len(list) == 0 {
		return nil
	}
	text, style := ink.Clean(list[0].Label)+": "+list[0].Say(m.now), m.deps.Theme.Quiet
	if list[0].State(m.now) == timer.Due {
		text, style = ink.SignOff+" "+text, m.deps.Theme.Off
	}
	lines := ink.Wrap(text, w)
	for i, l := range lines {
		lines[i] = style.Render(l)
	}
	return lines
}

// blind says that a key would have to be pressed without seeing what it answers.
func (m Model) blind(p keys.Press) bool {
	if !m.small() {
		return false
	}
	_, whole := m.smallBench(m.width, m.height)
	return !whole || !m.bench.SmallTakes(p)
}

// board gathers what runs in all batches; that on the bench is the freshest.
func (m Model) board() alarm.Board {
	batches := m.home.Batches
	for i, b := range batches {
		if b.Code == m.bench.Code {
			batches = slices.Clone(batches)
			batches[i].Plan = m.bench.Plan
		}
	}
	return alarm.Board{Batches: batches, Bench: m.bench.Code, Along: m.bench.Along.On, Offer: m.offer, Hush: m.hush(), Writing: m.writing() || m.page == intent.PageKeys, At: m.deps.Location}
}

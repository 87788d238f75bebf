package ui

import (
	"fmt"
	"slices"
)

// View draws the screen that has the keys, with the timers below it.
func (m Model) View() string {
	w, h := m.width, m.height
	if w <= 0 || h <= 0 {
		return ""
	}
	return screen(m.lines(w, h), w, h)
}

// lines draws the page; first aid comes before everything, even in a window too
// small for the rest.
func (m Model) lines(w, h int) []string {
	t := m.deps.Theme
	switch {
	case m.page == pageAid:
		return aidLines(t, w, h)
	case m.small():
		return m.tooSmall(w)
	}
	alarms := m.alarmLines(w, m.alarmRows(), m.now)
	if m.page == pageBench {
		return m.bench.view(t, w, h, alarms, m.now)
	}
	rows := h - len(alarms)
	var lines []string
	switch m.page {
	case pageHome:
		lines = m.home.view(t, w, rows, m.now)
	case pageSetup:
		lines = m.setup.view(t, w, rows)
	case pageRecord:
		lines = m.record.view(t, w, rows, m.now)
	case pageWays:
		lines = m.ways.view(t, w, rows)
	case pagePot:
		lines = m.pot.view(t, w, rows)
	case pageAsk:
		lines = m.ask.view(t, w, rows)
	case pageKeys:
		lines = keysLines(t, w, rows)
	case pageBench, pageAid:
	}
	// The timers stand above the word and the keys, as they do at the bench.
	return slices.Insert(lines, max(0, len(lines)-1-m.wordRows(w)), alarms...)
}

// wordRows is how many lines the page's word takes above its keys.
func (m Model) wordRows(w int) int {
	t := m.deps.Theme
	switch m.page {
	case pageHome:
		return len(m.home.words(t, w))
	case pageSetup:
		return len(m.setup.words(t, w))
	case pageRecord:
		return len(m.record.words(t, w))
	default:
		return 0
	}
}

// alarmRows is how many timers are in sight at once.
func (m Model) alarmRows() int {
	if m.height >= roomyHeight {
		return 4
	}
	return 1
}

// tooSmall says so and loses nothing: no key is taken that the person could
// only answer blind.
func (m Model) tooSmall(w int) []string {
	text := fmt.Sprintf("Make the window at least %d by %d; it is %d by %d. Nothing is lost: everything said so far is kept, and what was being typed waits. F1 shows first aid, ctrl+c leaves.",
		minWidth, minHeight, m.width, m.height)
	lines := wrap(text, w)
	for _, a := range m.timers(m.now)[:min(1, len(m.timers(m.now)))] {
		lines = append(lines, wrap(clean(a.Label)+": "+a.Say(m.now), w)...)
	}
	return lines
}

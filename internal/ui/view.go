package ui

import (
	"slices"

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
	timers := ""
	if m.steady != nil {
		timers = ink.Screen(m.timerLines(w), w, h)
	}
	if view := m.steady.with(timers, m.now); view != "" {
		return view
	}
	view := ink.Screen(m.marked(m.lines(w, h), w), w, h)
	m.steady.keep(view, timers, m.now)
	return view
}

// timerLines are the timers of all batches, as they stand above a page's keys.
func (m Model) timerLines(w int) []string {
	return m.board().Lines(m.deps.Theme, w, m.alarmRows(), m.now)
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
	alarms := m.timerLines(w)
	if m.page == intent.PageBench {
		return m.bench.View(t, w, h, alarms, m.home.Others(m.bench.Code), m.now)
	}
	rows := h - len(alarms)
	var lines []string
	switch m.page {
	case intent.PageHome:
		lines = m.homeLines(w, rows)
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

// homeLines show the batches, below the alarms that nobody answered.
func (m Model) homeLines(w, rows int) []string {
	t, h := m.deps.Theme, m.home
	h.Above = func(w int) []string { return m.board().Missed(t, w, m.ear.Opened(), m.now) }
	return h.View(t, w, rows, m.now)
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

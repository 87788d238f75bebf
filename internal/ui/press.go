package ui

import (
	"bench/internal/ui/ink"
	"bench/internal/ui/intent"
	"bench/internal/ui/keys"

	tea "github.com/charmbracelet/bubbletea"
)

// keyed splits what came in into single presses and hands on each.
func (m Model) keyed(msg tea.KeyMsg) (Model, tea.Cmd) {
	if msg.Paste {
		m.pasted(string(msg.Runes))
		return m, nil
	}
	var cmds []tea.Cmd
	for _, k := range keys.Split(msg) {
		var p keys.Press
		var cmd tea.Cmd
		m.guard.Pace = m.deps.Practice.Pace()
		m.guard, p = m.guard.Press(k, m.now)
		m, cmd = m.pressedBefore(p)
		m.still = false
		cmds = append(cmds, cmd)
		m, cmd = m.pressed(p)
		cmds = append(cmds, cmd, m.awaits(p))
	}
	return m, tea.Batch(cmds...)
}

// pasted puts pasted text into the line that is being written; anywhere else a
// paste does nothing.
func (m *Model) pasted(text string) {
	if room := m.smallRoom(m.height); m.small() && !m.smallPage(m.width, room).Fits(m.width, room) {
		return
	}
	switch m.page {
	case intent.PageAsk:
		m.ask.Line = m.ask.Line.Insert(ink.Clean(text))
	case intent.PageRecord:
		m.record = m.record.Pasted(ink.Clean(text))
	case intent.PageRack:
		m.rack = m.rack.Pasted(ink.Clean(text))
	case intent.PageHome, intent.PageSetup, intent.PageBench, intent.PageWays, intent.PagePot, intent.PageAid, intent.PageKeys,
		intent.PageChoices, intent.PageFace, intent.PageTimers:
	}
}

// pressed hands a key to the screen that has the keys.
func (m Model) pressed(p keys.Press) (Model, tea.Cmd) {
	m, act, taken := m.offered(p)
	if taken {
		return m.perform(act, p.At)
	}
	if act, ok := m.everywhere(p); ok {
		return m.perform(act, p.At)
	}
	if m.takesOver(p) {
		return m.perform(intent.Open{Code: m.bench.Code}, p.At)
	}
	switch m.page {
	case intent.PageHome:
		m.home, act = m.home.Update(p)
	case intent.PageSetup:
		m.setup, act = m.setup.Update(p)
		m.setup = m.setup.Within(m.deps.Theme, m.width, m.height-1)
	case intent.PageBench:
		m.bench, act = m.bench.Update(p)
	case intent.PageRecord:
		m.record, act = m.record.Update(p)
	case intent.PageWays:
		m.ways, act = m.ways.Update(p)
	case intent.PagePot:
		m.pot, act = m.pot.Update(p)
	case intent.PageAsk:
		m.ask, act = m.ask.Update(p)
	case intent.PageChoices:
		m.choose, act = m.choose.Update(p)
	case intent.PageRack:
		m.rack, act = m.rack.Update(p)
	case intent.PageTimers:
		m.timers, act = m.timers.Update(p)
		m.timers = m.timers.Within(m.board(), p)
	case intent.PageAid, intent.PageKeys, intent.PageFace: // These are anyKeyLeaves.
		if !p.Held {
			act = intent.Back{}
		}
	}
	return m.perform(act, p.At)
}

// anyKeyLeaves says that a page promises to go back at any key.
func anyKeyLeaves(p intent.Page) bool {
	return p == intent.PageAid || p == intent.PageKeys || p == intent.PageFace
}

// everywhere answers the keys that mean the same on every screen. A window too
// small to read takes no key that could be answered blind.
func (m Model) everywhere(p keys.Press) (intent.Action, bool) {
	text := m.writing()
	switch {
	case keys.Matches(p, keys.Break):
		return intent.Quit{}, true
	case keys.Matches(p, keys.AidAnywhere), !text && keys.Matches(p, keys.Aid):
		if m.page == intent.PageAid {
			return nil, false
		}
		return intent.Overlay{Page: intent.PageAid}, true
	case m.page == intent.PageAid:
		return nil, false
	case !text && !anyKeyLeaves(m.page) && keys.Matches(p, keys.Quit):
		return m.leave(), true
	case m.blind(p):
		return nil, true
	case !text && m.deps.Practice.On() && keys.Matches(p, keys.Speed):
		return intent.Speed{}, !p.Held
	case !text && m.deps.Practice.On() && keys.Matches(p, keys.Forward):
		return intent.Forward{}, !p.Held
	case text || m.page == intent.PageKeys:
		return nil, false
	case keys.Matches(p, keys.Keys):
		return intent.Overlay{Page: intent.PageKeys}, true
	case m.page != intent.PageTimers && keys.Matches(p, keys.Timers):
		return intent.Overlay{Page: intent.PageTimers}, !p.Held
	case keys.Matches(p, keys.Seen):
		return m.board().Answer(p, false, m.bench.Unsaved != nil), true
	case keys.Matches(p, keys.PutOff):
		return m.board().Answer(p, true, m.bench.Unsaved != nil), true
	}
	return nil, false
}

// writing says that keys are text just now.
func (m Model) writing() bool {
	return m.page == intent.PageAsk || m.page == intent.PageRecord && m.record.Writing() || m.page == intent.PageRack && m.rack.Writing
}

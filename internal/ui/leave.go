package ui

import (
	"bench/internal/ui/after"
	"bench/internal/ui/bench"
	"bench/internal/ui/intent"

	tea "github.com/charmbracelet/bubbletea"
)

// back leaves an overlay for what lies below it; from a screen it goes home, and
// the batch is let go, so that another bench may take it.
func (m Model) back() (Model, tea.Cmd) {
	switch m.page {
	case intent.PageFace:
		return m.show(m.below), nil
	case intent.PageTimers:
		return m.show(m.timers.From), nil
	case intent.PageAid, intent.PageKeys:
		if m.under == intent.PageHome && m.flight == "" {
			m.page = intent.PageHome
			return m.back()
		}
		return m.show(m.under), nil
	case intent.PageAsk:
		if before, ok := m.ask.Before(); ok {
			m.ask = before
			return m.show(intent.PageAsk), nil
		}
		return m.show(intent.PageBench), nil
	case intent.PageRecord, intent.PageWays, intent.PagePot, intent.PageChoices:
		return m.show(intent.PageBench), nil
	case intent.PageHome, intent.PageSetup, intent.PageBench, intent.PageRack:
		if m.flight != "" {
			return m.say("Still " + m.flight + ": press it again."), nil
		}
		m = m.leaves().show(intent.PageHome)
		m.home.Loading, m.flight = true, reading
		release := m.held()
		if m.bench.Code != "" {
			m.home = m.home.On(m.bench.Code)
		}
		m.bench = bench.Screen{}
		return m, m.loadCmd(release)
	}
	return m, nil
}

// leave quits, unless a fact that could not be saved would be lost unseen.
func (m Model) leave() intent.Action {
	if m.bench.Unsaved != nil {
		return intent.Word{Text: "The last entry is not saved. r saves it again, esc lets it go."}
	}
	return intent.Quit{}
}

// quit waits for a fact in flight: a command that is dropped at the end of the
// program would be a fact that the person saw and nobody kept.
func (m Model) quit() (Model, tea.Cmd) {
	if m.Busy() {
		m.quitting = true
		return m.say("Leaving: still " + m.flight + "."), nil
	}
	return m, m.quitCmd()
}

// toRack shows the batches in cure, and sends for those that are closed.
func (m Model) toRack(words string) (Model, tea.Cmd) {
	if m.flight != "" {
		return m.say("Still " + m.flight + ": press it again."), nil
	}
	m.rack = after.NewRack(m.home.Batches, m.now, m.deps.Location)
	m.flight = reading
	return m.show(intent.PageRack), m.closedCmd(words)
}

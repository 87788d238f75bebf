package ui

import (
	"errors"

	"bench/internal/front"
	"bench/internal/reply"
	"bench/internal/timer"
	"bench/internal/ui/intent"

	tea "github.com/charmbracelet/bubbletea"
)

// loadCmd lets go of a batch, when one is named, and reads what is under way.
func (m Model) loadCmd(release string) tea.Cmd {
	d := m.deps
	return func() tea.Msg {
		var let error
		if release != "" {
			let = d.Store.Release(release)
		}
		batches, err := d.Store.Batches()
		fresh := len(batches) == 0 && err == nil && d.Store.Empty()
		return loadedMsg{batches, fresh, errors.Join(let, err), d.Store.Remark()}
	}
}

// closedCmd reads a shelf of the batches that are closed.
func (m Model) closedCmd(words string) tea.Cmd {
	s := m.deps.Store
	return func() tea.Msg {
		past, err := s.Closed(words)
		return closedMsg{past, err}
	}
}

// recipesCmd reads the recipes, once the batches are in sight: a batch under way is
// what somebody comes for in a hurry.
func (m Model) recipesCmd() tea.Cmd {
	d := m.deps
	return func() tea.Msg {
		msg := recipesMsg{recipes: d.Recipes()}
		if d.Manner != nil {
			msg.manner = d.Manner()
		}
		return msg
	}
}

func (m Model) startCmd(a intent.Start, at timer.Moment) tea.Cmd {
	s := m.deps.Store
	return func() tea.Msg {
		code, first, err := s.Start(a.Control, at)
		return startedMsg{code, first, err}
	}
}

// openCmd takes hold of the new batch before it lets go of the old one, so that
// a refusal leaves the bench as it was.
func (m Model) openCmd(a intent.Open, at timer.Moment) tea.Cmd {
	s := m.deps.Store
	return func() tea.Msg {
		msg := openedMsg{code: a.Code}
		msg.entries, msg.err = s.Open(a.Code, at)
		if msg.err == nil && a.Release != "" {
			msg.let = s.Release(a.Release)
		}
		return msg
	}
}

// appendElsewhereCmd keeps a fact of a batch that is not on the bench, which is
// taken hold of for as long as that takes.
func (m Model) appendElsewhereCmd(a reply.Keep) tea.Cmd {
	s := m.deps.Store
	return func() tea.Msg {
		msg := appendedMsg{keep: a}
		if _, err := s.Open(a.Code, a.At); err != nil {
			msg.err = front.NotOpened(a.Code, err)
			return msg
		}
		msg.entry, msg.err = s.Append(a.Code, a.Fact, a.At)
		msg.remark = s.Remark()
		msg.let = s.Release(a.Code)
		return msg
	}
}

// quitCmd lets go of the batch on the bench and ends the program.
func (m Model) quitCmd() tea.Cmd {
	s, code := m.deps.Store, m.held()
	return func() tea.Msg {
		if code != "" {
			_ = s.Release(code) // Nothing is left that could show it; the facts are safe.
		}
		return tea.QuitMsg{}
	}
}

package ui

import (
	"strings"

	"bench/internal/ui/ink"
	"bench/internal/ui/keys"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"
)

// turnedMsg says that the clock of the practice has another speed, or time.
type turnedMsg struct{}

func (m Model) turnCmd() tea.Cmd {
	turn := m.deps.Practice.Turn
	return func() tea.Msg {
		turn()
		return turnedMsg{}
	}
}

// forwardCmd puts the clock to just before what asks next; where nothing does, it stays.
func (m Model) forwardCmd() tea.Cmd {
	by, ok := m.board().UntilNext(m.now)
	forward := m.deps.Practice.Forward
	if !ok || forward == nil {
		return nil
	}
	return func() tea.Msg {
		forward(by)
		return turnedMsg{}
	}
}

// marked puts the mark of practice on a page: at the right of the first of its
// upper lines that is blank or a rule, or else at the right of the first.
func (m Model) marked(lines []string, w int) []string {
	if !m.deps.Practice.On() {
		return lines
	}
	t := m.deps.Theme
	words := t.Alarm.Render(" PRACTICE ") + " " + m.deps.Practice.Words() + " "
	for _, k := range []key.Binding{keys.Speed, keys.Forward} {
		words += " " + t.Key.Render(k.Help().Key) + " " + k.Help().Desc + " "
	}
	for i := range lines[:min(3, len(lines))] {
		if text := strings.Trim(ansi.Strip(lines[i]), " ─"); text == "" {
			lines[i] = ink.Between(t.Line.Render(ink.Rule(max(0, w-ink.Width(words)-1))), words, w)
			return lines
		}
	}
	lines[0] = ink.Between(lines[0], words, w)
	return lines
}

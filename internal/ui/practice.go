package ui

import (
	"strings"
	"time"

	"bench/internal/front"
	"bench/internal/ui/ink"
	"bench/internal/ui/keys"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"
)

// quickest keeps a clock that runs fast from being drawn more often than an eye
// can follow.
const quickest = 100 * time.Millisecond

// turnedMsg says that the clock of the practice has another speed.
type turnedMsg struct{}

func (m Model) turnCmd() tea.Cmd {
	turn := m.deps.Practice.Turn
	return func() tea.Msg {
		turn()
		return turnedMsg{}
	}
}

// pacedTick waits by the clock of the practice.
func pacedTick(p front.Practice) func(time.Duration, func(time.Time) tea.Msg) tea.Cmd {
	if !p.On() {
		return tea.Tick
	}
	return func(d time.Duration, f func(time.Time) tea.Msg) tea.Cmd {
		return tea.Tick(max(quickest, d/time.Duration(p.Pace())), f)
	}
}

// marked puts the mark of practice on a page: at the right of the first of its
// upper lines that is blank or a rule, or else at the right of the first.
func (m Model) marked(lines []string, w int) []string {
	if !m.deps.Practice.On() {
		return lines
	}
	t := m.deps.Theme
	words := t.Alarm.Render(" PRACTICE ") + " " + m.deps.Practice.Words() + "  " + t.Key.Render(keys.Speed.Help().Key) + " " + keys.Speed.Help().Desc + " "
	for i := range lines[:min(3, len(lines))] {
		if text := strings.Trim(ansi.Strip(lines[i]), " ─"); text == "" {
			lines[i] = ink.Between(t.Line.Render(ink.Rule(max(0, w-ink.Width(words)-1))), words, w)
			return lines
		}
	}
	lines[0] = ink.Between(lines[0], words, w)
	return lines
}

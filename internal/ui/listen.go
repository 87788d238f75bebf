package ui

import (
	"bench/internal/recipe"
	"bench/internal/watch"

	tea "github.com/charmbracelet/bubbletea"
)

// listen rings for the alarms that have come up, and again for those that wait
// for an answer. Nothing sounds before it is known how the maker wants it.
func (m *Model) listen(list []watch.Timer) tea.Cmd {
	if !m.settled {
		return nil
	}
	var sound watch.Sound
	m.ear, sound = m.ear.Listen(list, m.now, m.quiet())
	if m.silent() {
		return nil
	}
	out := m.deps.Outside
	var cmds []tea.Cmd
	if sound.Bell && out.Bell != nil {
		cmds = append(cmds, out.Bell)
	}
	for _, t := range sound.New {
		if out.Notify != nil && m.notices() {
			cmds = append(cmds, out.Notify(t.Words()))
		}
	}
	return tea.Batch(cmds...)
}

// notices says that what sounds is to be seen on the desktop, too.
func (m Model) notices() bool {
	return m.manner.Notices == recipe.On || m.manner.Notices != recipe.Off && !m.quiet()
}

// silent says that the maker wants no sound, whatever is due.
func (m Model) silent() bool { return m.manner.Sound == recipe.Off }

// quiet says that only alarms of the first kind sound just now.
func (m Model) quiet() bool { return m.manner.Quiet.Covers(m.now.Wall.In(m.deps.Location)) }

// hush says in a word why alarms make no sound: silence must not look like
// nothing being due.
func (m Model) hush() string {
	switch {
	case m.silent():
		return "silent"
	case m.quiet():
		return "quiet hours"
	}
	return ""
}

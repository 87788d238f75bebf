package ui

import (
	"time"

	"bench/internal/ui/intent"
	"bench/internal/ui/keys"

	tea "github.com/charmbracelet/bubbletea"
)

// A key that comes again half a second later is pressed anew, or held and begins
// to repeat: which it is shows when the next repeat comes, or does not. So the
// second of two ticks waits a moment. No terminal need report releases for it.

// unsure is a press that waits for what follows it, and the task it was meant
// for. Its zero value is none.
type unsure struct {
	id    int // id tells one from those before it.
	waits bool
	press keys.Press
	task  string
}

// settledMsg says that no repeat can come any more.
type settledMsg struct{ id int }

// awaits keeps a press that may be one of its own, if it would tick.
func (m *Model) awaits(p keys.Press) tea.Cmd {
	if !p.Unsure || m.page != intent.PageBench || m.small() || !keys.Matches(p, keys.Tick, keys.Accept) {
		return nil
	}
	t, _, _ := m.bench.Current(p.At)
	m.unsure = unsure{m.unsure.id + 1, true, p, t.ID}
	id := m.unsure.id
	return m.ticks.truly(keys.Settles, func(time.Time) tea.Msg { return settledMsg{id} })
}

// pressedBefore sees to a press that waits when a key comes: another key shows that
// the one before was let go, and the same that it is held.
func (m Model) pressedBefore(p keys.Press) (Model, tea.Cmd) {
	if m.unsure.waits && p.String() == m.unsure.press.String() {
		m.unsure.waits = false
	}
	return m.settle(settledMsg{m.unsure.id})
}

// settle takes a press that waits for one of its own, unless what it was meant for
// is no longer there.
func (m Model) settle(msg settledMsg) (Model, tea.Cmd) {
	if !m.unsure.waits || msg.id != m.unsure.id {
		return m, nil
	}
	m.unsure.waits = false
	t, _, _ := m.bench.Current(m.now)
	if m.page != intent.PageBench || t.ID != m.unsure.task {
		return m, nil
	}
	var p keys.Press
	m.guard, p = m.guard.Sure(m.unsure.press)
	return m.pressed(p)
}

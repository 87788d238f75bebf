package ui

import (
	"maps"
	"time"

	"bench/internal/timer"
	"bench/internal/ui/intent"
	"bench/internal/ui/keys"

	tea "github.com/charmbracelet/bubbletea"
)

// glimpse is for how long one may be away at another batch without being asked
// where one was: nobody forgets it in that time, and each question more is
// answered unread (common practice, no source).
const glimpse = 5 * time.Minute

// leave is a batch as it was when another was taken to the bench.
type leave struct {
	at      timer.Moment
	entries int
}

// switchBatch goes round the batches under way, in the order of the first screen.
func (m Model) switchBatch(at timer.Moment) (Model, tea.Cmd) {
	others := m.home.Others(m.bench.Code)
	if len(others) == 0 {
		return m.say("No other batch is under way."), nil
	}
	return m.send(intent.Open{Code: others[0].Code, Release: m.held()}, at)
}

// switched goes to the bench with another batch. It asks where one was unless the
// batch was left just now, with nothing said since and nothing on the scale.
func (m Model) switched(msg openedMsg) (Model, tea.Cmd) {
	was, known := m.left[msg.code]
	known = known && msg.from != "" && keys.Within(m.now, was.at, glimpse) && was.entries == len(msg.entries)
	left := maps.Clone(m.left)
	if left == nil {
		left = map[string]leave{}
	}
	left[m.bench.Code] = leave{m.now, len(m.bench.State.Entries)}
	m, cmd := m.toBench(msg.code, msg.entries, !known)
	if known && m.bench.Stands(m.now) {
		m.bench = m.bench.Asking()
	}
	m.left = left
	return m, cmd
}

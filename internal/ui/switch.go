package ui

import (
	"maps"
	"time"

	"bench/internal/timer"
	"bench/internal/ui/intent"
	"bench/internal/ui/keys"

	tea "github.com/charmbracelet/bubbletea"
)

// glimpse is for how long one may be away without being asked where one was: nobody
// forgets it in that time, and each question more is answered unread. For a moment what
// stands on the scale is not asked about either (both common practice, no source).
const (
	glimpse = 5 * time.Minute
	instant = time.Minute
)

// leave is a batch as it was when it was left, for another or for the first screen.
type leave struct {
	at      timer.Moment
	entries int
	all     int // all counts what was said in every batch under way.
}

// leaves notes that the batch on the bench is left. Where one was that was not answered
// is asked again.
func (m Model) leaves() Model {
	if m.bench.Code == "" || m.bench.Along.On {
		return m
	}
	left := maps.Clone(m.left)
	if left == nil {
		left = map[string]leave{}
	}
	if m.bench.Asks() {
		delete(left, m.bench.Code)
		m.left = left
		return m
	}
	left[m.bench.Code] = leave{m.now, len(m.bench.State.Entries), m.saidInAll()}
	m.left = left
	return m
}

// saidInAll counts the facts of all batches under way.
func (m Model) saidInAll() int {
	n := 0
	for _, b := range m.home.Batches {
		n += len(b.State.Entries)
	}
	return n
}

// switchBatch goes round the batches under way, in the order of the first screen.
func (m Model) switchBatch(at timer.Moment) (Model, tea.Cmd) {
	others := m.home.Others(m.bench.Code)
	if len(others) == 0 {
		return m.say("No other batch is under way."), nil
	}
	return m.send(intent.Open{Code: others[0].Code, Release: m.held()}, at)
}

// cameTo goes to the bench with a batch. It asks where one was unless the batch was left
// just now, with nothing said in it since; what stands on the scale it asks about unless
// that was a moment ago, with nothing said anywhere.
func (m Model) cameTo(msg openedMsg) (Model, tea.Cmd) {
	was, known := m.left[msg.code]
	known = known && keys.Within(m.now, was.at, glimpse) && was.entries == len(msg.entries)
	moment := known && keys.Within(m.now, was.at, instant) && was.all == m.saidInAll()
	m, cmd := m.leaves().toBench(msg.code, msg.entries, !known)
	if known && !moment && m.bench.Stands(m.now) {
		m.bench = m.bench.Asking()
	}
	return m, cmd
}

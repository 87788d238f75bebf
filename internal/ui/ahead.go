package ui

import (
	"sync"
	"time"

	"bench/internal/batch"
	"bench/internal/reply"
	"bench/internal/timer"
	"bench/internal/ui/bench"

	tea "github.com/charmbracelet/bubbletea"
)

// soon is how long a disk may take before the screen says that it is at work:
// within it, nobody could read the word.
const soon = 30 * time.Millisecond

// ahead is what the fact in flight will lead to, worked out while the store
// writes. It is shown only once the store has handed back that very fact.
type ahead struct {
	entry batch.Entry
	after func() bench.Outcome
	view  func() foreseen
}

// foreseen is the screen with the fact kept, and when time alone will change
// something in it; zero is never.
type foreseen struct {
	text    string
	changes timer.Moment
}

// slowMsg says that the store takes long enough to be told about.
type slowMsg struct{}

// Still says that the screen may stay as it is until the next message: a fact is
// on its way to the disk, and what it leads to or a slowMsg comes soon.
func (m Model) Still() bool { return m.still }

// Ahead gives the screen that will most likely follow. It takes a while, and may
// be asked for beside Update.
func (m Model) Ahead() string { return m.ahead.view().text }

// foresee gives what will follow from a fact that has just been sent.
func (m Model) foresee(k reply.Keep) ahead {
	e := batch.Entry{Seq: len(m.bench.State.Entries) + 1, At: k.At, Fact: k.Fact}
	a := ahead{entry: e, after: m.bench.After(e)}
	m.ahead, m.still, m.steady = a, false, nil
	a.view = sync.OnceValue(func() foreseen {
		next, _ := m.appended(appendedMsg{keep: k, entry: e})
		_, at := next.changes(next.board().Timers(m.now))
		return foreseen{next.View(), at}
	})
	return a
}

// is says that an entry is the one that was foreseen.
func (a ahead) is(e batch.Entry) bool {
	return a.after != nil && e.Seq == a.entry.Seq && e.At.Same(a.entry.At)
}

// drawn gives the screen that was foreseen for an answer of the store, or "": the
// answer is another one, or time has changed something meanwhile.
func (a ahead) drawn(msg appendedMsg, now timer.Moment) string {
	if msg.err != nil || msg.remark != "" || !a.is(msg.entry) {
		return ""
	}
	view := a.view()
	if left, _ := view.changes.Since(now); !view.changes.IsZero() && left <= 0 {
		return ""
	}
	return view.text
}

// outcome gives what an entry leads to: as it was foreseen, or else anew.
func (a ahead) outcome(b bench.Screen, e batch.Entry) bench.Outcome {
	if a.is(e) {
		return a.after()
	}
	return b.After(e)()
}

// appendCmd keeps a fact of the batch on the bench. The screen is told if it takes
// long.
func (m Model) appendCmd(k reply.Keep) tea.Cmd {
	s := m.deps.Store
	landed := make(chan struct{})
	keep := func() tea.Msg {
		defer close(landed)
		entry, err := s.Append(k.Code, k.Fact, k.At)
		return appendedMsg{keep: k, entry: entry, err: err, remark: s.Remark()}
	}
	tell := m.ticks.truly(soon, func(time.Time) tea.Msg {
		select {
		case <-landed:
			return nil
		default:
			return slowMsg{}
		}
	})
	return tea.Batch(keep, tell)
}

package ui

import (
	"time"

	"bench/internal/batch"
	"bench/internal/reply"
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
}

// slowMsg says that the store takes long enough to be told about.
type slowMsg struct{}

// Still says that the screen may stay as it is until the next message: a fact is
// on its way to the disk, and what it leads to or a slowMsg comes soon.
func (m Model) Still() bool { return m.still }

// guess gives the entry that a fact will become, and what follows from it.
func guess(b bench.Screen, k reply.Keep) ahead {
	e := batch.Entry{Seq: len(b.State.Entries) + 1, At: k.At, Fact: k.Fact}
	return ahead{e, b.After(e)}
}

// outcome gives what an entry leads to: as it was foreseen, or else anew.
func (a ahead) outcome(b bench.Screen, e batch.Entry) bench.Outcome {
	if a.after != nil && e.Seq == a.entry.Seq && e.At.Same(a.entry.At) {
		return a.after()
	}
	return b.After(e)()
}

// appendCmd keeps a fact of the batch on the bench. What follows from it is
// worked out meanwhile, and the screen told if it takes long.
func (m Model) appendCmd(k reply.Keep, a ahead) tea.Cmd {
	s := m.deps.Store
	landed := make(chan struct{})
	keep := func() tea.Msg {
		defer close(landed)
		entry, err := s.Append(k.Code, k.Fact, k.At)
		return appendedMsg{keep: k, entry: entry, err: err, remark: s.Remark()}
	}
	foresee := func() tea.Msg {
		a.after()
		return nil
	}
	tell := m.ticks.after(soon, func(time.Time) tea.Msg {
		select {
		case <-landed:
			return nil
		default:
			return slowMsg{}
		}
	})
	return tea.Batch(keep, foresee, tell)
}

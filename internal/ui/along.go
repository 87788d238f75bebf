package ui

import (
	"time"

	"bench/internal/batch"
	"bench/internal/reply"
	"bench/internal/ui/bench"
	"bench/internal/ui/ink"
	"bench/internal/ui/intent"
	"bench/internal/ui/keys"

	tea "github.com/charmbracelet/bubbletea"
)

// glance is how often a batch that another bench writes is looked at.
const glance = time.Second

type (
	// followedMsg brings what another bench has kept so far.
	followedMsg struct {
		code    string
		entries []batch.Entry
		heldBy  string
		err     error
	}
	// glanceMsg says that it is time to look again.
	glanceMsg struct{ code string }
)

func (m Model) followCmd(code string) tea.Cmd {
	s := m.deps.Store
	return func() tea.Msg {
		msg := followedMsg{code: code}
		msg.entries, msg.heldBy, msg.err = s.Follow(code)
		return msg
	}
}

// followed shows the batch as it stands now, and sees to the next look.
func (m Model) followed(msg followedMsg) (Model, tea.Cmd) {
	m.flight = ""
	if msg.err != nil {
		return m.stay("Batch " + ink.Clean(msg.code) + " was not read: " + msg.err.Error()), m.glanceLater()
	}
	fresh := m.bench.Code != msg.code
	if fresh || len(msg.entries) != len(m.bench.State.Entries) {
		m.bench = bench.New(msg.code, batch.Fold(msg.entries), m.deps.Location, false, m.now)
	}
	m.bench.Along = bench.Along{On: true, HeldBy: msg.heldBy}
	m.home = m.home.With(m.underWay())
	if fresh {
		m = m.arrive(intent.PageBench)
	}
	m, cmd := m.land()
	return m, tea.Batch(cmd, m.glanceLater())
}

func (m Model) glanceLater() tea.Cmd {
	if !m.bench.Along.On {
		return nil
	}
	code := m.bench.Code
	return m.ticks.truly(glance, func(time.Time) tea.Msg { return glanceMsg{code} })
}

// glanced looks again, unless the store is at work or the batch has left.
func (m Model) glanced(msg glanceMsg) (Model, tea.Cmd) {
	switch {
	case !m.bench.Along.On || m.bench.Code != msg.code:
		return m, nil
	case m.flight != "":
		return m, m.glanceLater()
	}
	m.flight = reading
	return m, m.followCmd(msg.code)
}

// onlyReads stops what would write a batch that is only read along; who writes it
// stands below.
func (m Model) onlyReads(act intent.Action) bool { return m.bench.Along.On && m.writes(act) }

// takesOver says that a key is the one that goes on with a batch which the other
// bench has let go; it says nothing else.
func (m Model) takesOver(p keys.Press) bool {
	return m.bench.Along.On && m.bench.Along.HeldBy == "" && m.page == intent.PageBench && keys.Matches(p, keys.Accept) && !p.Held
}

// writes says that an action leads to a fact of the batch on the bench.
func (m Model) writes(act intent.Action) bool {
	switch act := act.(type) {
	case intent.Reply:
		keep, ok := act.Act.(reply.Keep)
		return !ok || keep.Code == m.bench.Code
	case intent.PutOff:
		return act.Code == m.bench.Code
	case intent.Correct, intent.Decide, intent.WeighPot, intent.Choose:
		return true
	case intent.Quit, intent.Back, intent.Overlay, intent.Prepare, intent.Start, intent.Open, intent.Follow,
		intent.SwitchBatch, intent.Rack, intent.Speed, intent.Forward, intent.Word:
	}
	return false
}

// held gives the batch that is to be let go when the bench is left: none when it
// was only read along.
func (m Model) held() string {
	if m.bench.Along.On {
		return ""
	}
	return m.bench.Code
}

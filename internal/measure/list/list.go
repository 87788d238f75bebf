// Package list is the program that bench is measured against: twelve rows to
// tick and one countdown. It knows nothing of bench, and does as little as a
// full-screen program can.
package list

import (
	"fmt"
	"strings"
	"time"

	tea "github.com/charmbracelet/bubbletea"
)

// Rows is how many rows there are to tick.
const Rows = 12

const reverse, plain = "\x1b[7m", "\x1b[m"

type second struct{}

// Model is the list, with an hour on its countdown.
type Model struct {
	cursor int
	ticked [Rows]bool
	gone   time.Duration
	height int
}

// Init starts the countdown.
func (m Model) Init() tea.Cmd { return next() }

func next() tea.Cmd { return tea.Tick(time.Second, func(time.Time) tea.Msg { return second{} }) }

// Update takes j and k for the row below and above, space for a tick, q to leave.
func (m Model) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	switch msg := msg.(type) {
	case tea.WindowSizeMsg:
		m.height = msg.Height
	case second:
		m.gone += time.Second
		return m, next()
	case tea.KeyMsg:
		switch msg.String() {
		case "j":
			m.cursor = min(m.cursor+1, Rows-1)
		case "k":
			m.cursor = max(m.cursor-1, 0)
		case " ":
			m.ticked[m.cursor] = !m.ticked[m.cursor]
		case "q":
			return m, tea.Quit
		}
	}
	return m, nil
}

// View draws the list at the top and the countdown at the bottom.
func (m Model) View() string {
	if m.height == 0 {
		return ""
	}
	var b strings.Builder
	b.WriteString("Steps of the batch\n\n")
	for i, ticked := range m.ticked {
		sign, mark := "  ", "[ ]"
		if ticked {
			mark = "[x]"
		}
		line := fmt.Sprintf("%s step %d of %d", mark, i+1, Rows)
		if i == m.cursor {
			sign, line = "> ", reverse+line+plain
		}
		b.WriteString(sign + line + "\n")
	}
	b.WriteString(strings.Repeat("\n", max(0, m.height-Rows-4)))
	left := time.Hour - m.gone
	fmt.Fprintf(&b, "%02d:%02d left\nj k move   space tick   q leave", int(left.Minutes()), int(left.Seconds())%60)
	return b.String()
}

package draw

import tea "github.com/charmbracelet/bubbletea"

// Modes (DEC private) in which a terminal reports buttons and the wheel (1000) in
// a form without limits (1006). Motion is not asked for.
const (
	mouseOn  = "\x1b[?1000h\x1b[?1006h"
	mouseOff = "\x1b[?1006l\x1b[?1000l"
)

type mouseMsg struct{}

// Mouse is a command that has the terminal report clicks and the wheel until it
// is given back; the model gets them as tea.MouseMsg. Meanwhile the terminal
// selects no text.
func Mouse() tea.Msg { return mouseMsg{} }

func (t *Terminal) watchMouse() error {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.mouse || t.closed {
		return nil
	}
	t.mouse = true
	if !t.held {
		return nil // Acquire switches it on.
	}
	return t.write(mouseOn)
}

package draw

import (
	"fmt"
	"strings"
	"time"
	"unicode"

	tea "github.com/charmbracelet/bubbletea"
)

// What reaches a person beside the screen: the terminal's bell, and notices on
// the desktop by the terminal's own sequence.

// bellPause is the least time between two bells, however fast the program's
// clock runs: a bell that never stops is no alarm.
const bellPause = time.Second

type (
	bellMsg   struct{}
	noticeMsg struct{ text string }
)

// Bell is a command that rings the terminal's bell, at most once a second.
func Bell() tea.Msg { return bellMsg{} }

// Notice returns a command that shows a text on the desktop, where the terminal
// is known to have a sequence for it; elsewhere it does nothing.
func Notice(text string) tea.Cmd { return func() tea.Msg { return noticeMsg{text} } }

func (t *Terminal) ring() error {
	t.mu.Lock()
	defer t.mu.Unlock()
	now := time.Now()
	if !t.held || now.Sub(t.rang) < bellPause {
		return nil
	}
	t.rang = now
	return t.write("\a")
}

func (t *Terminal) notice(text string) error {
	t.mu.Lock()
	defer t.mu.Unlock()
	if !t.held || t.notices == "" {
		return nil
	}
	return t.write(fmt.Sprintf(t.notices, noticeText(text)))
}

func (t *Terminal) write(text string) error {
	if _, err := t.out.WriteString(text); err != nil {
		return fmt.Errorf("writing to the terminal: %w", err)
	}
	return nil
}

// longestNotice is in characters; what is longer is cut by desktops anyway.
const longestNotice = 160

// noticeText makes a text fit to stand in a control string: no controls, one
// line, and no semicolon, which would part it.
func noticeText(text string) string {
	clean := []rune(strings.Map(func(r rune) rune {
		switch {
		case r == ';':
			return ','
		case !unicode.IsPrint(r):
			return -1
		}
		return r
	}, text))
	return string(clean[:min(len(clean), longestNotice)])
}

// Operating system commands (ECMA-48, 8.3.89) that show a notice, as terminals
// came to have them; each is documented by those that know it.
const (
	osc9   = "\x1b]9;bench: %s\x1b\\"
	osc777 = "\x1b]777;notify;bench;%s\x1b\\"
	osc99  = "\x1b]99;;bench: %s\x1b\\"
)

// noticesFor gives the sequence of a terminal that is known to have one (from
// the terminals' own documentation, from memory), or that BENCH_NOTICES names:
// osc9, osc777, osc99 or off. A multiplexer between would swallow it, or show it
// as text.
func noticesFor(getenv func(string) string) string {
	switch getenv("BENCH_NOTICES") {
	case "osc9":
		return osc9
	case "osc777":
		return osc777
	case "osc99":
		return osc99
	case "off":
		return ""
	}
	name, program := getenv("TERM"), getenv("TERM_PROGRAM")
	switch {
	case getenv("TMUX") != "" || getenv("STY") != "":
		return ""
	case name == "xterm-kitty":
		return osc99
	case name == "foot" || name == "foot-extra" || name == "xterm-ghostty":
		return osc777
	case strings.HasPrefix(name, "xterm") && (program == "WezTerm" || program == "ghostty"):
		return osc777
	case strings.HasPrefix(name, "xterm") && program == "iTerm.app":
		return osc9
	}
	return ""
}

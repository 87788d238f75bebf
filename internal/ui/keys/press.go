// Package keys is what a hand does: the table of keys, presses told from keys
// that are held, figures, a line of text, and the lines that show keys.
//
// The rule: every key of the program is in its table, and nowhere else.
package keys

import (
	"strings"
	"time"

	"bench/internal/timer"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// A terminal reports neither the release of a key nor that it repeats, so a
// held-down key is told by time: it comes again and again with nothing in
// between. A key that makes a fact acts once until it has rested.
const (
	// rest is the gap after which the same key counts as pressed anew.
	rest = 250 * time.Millisecond
	// repeatDelay outlasts the usual delay before a held key begins to repeat
	// (250 to 660 ms by default, from memory).
	repeatDelay = 700 * time.Millisecond
	// twice is the longest gap within a double press.
	twice = 400 * time.Millisecond
)

// Settles is how long it takes to tell a press from the first repeat of a held
// key: the next repeat comes before that (in 92 ms on the slowest common setting,
// 10.9 a second, from memory).
const Settles = 150 * time.Millisecond

// Press is one key going down, with the moment it came in.
type Press struct {
	tea.KeyMsg
	At timer.Moment
	// Held says that the key may not have been let go since it last did
	// something, or was on its way before the screen changed.
	Held bool
	// Unsure says that Held is for want of knowing: it is a press of its own if no
	// repeat follows before it Settles.
	Unsure bool
	pace   int
}

// Startle is how long what has just come up by itself takes no answer: a key
// already on its way was not meant for it.
func (p Press) Startle() time.Duration { return startle * time.Duration(max(1, p.pace)) }

// Guard remembers what it takes to tell a press from a repeat.
type Guard struct {
	last    string
	lastAt  timer.Moment
	actedAt timer.Moment
	Arrived timer.Moment // arrived is when the screen last changed.
	Pace    int          // Pace is how many times as fast as a hand the clock runs; 0 is once.
}

// Press stamps a key and says whether it is held.
func (g Guard) Press(k tea.KeyMsg, at timer.Moment) (Guard, Press) {
	p := Press{KeyMsg: k, At: at, pace: g.Pace}
	pace := time.Duration(max(1, g.Pace))
	name := k.String()
	again := name == g.last
	switch {
	case again && (Within(at, g.lastAt, rest*pace) || Within(at, g.actedAt, repeatDelay*pace)):
		p.Held, p.Unsure = true, !Within(at, g.lastAt, twice*pace)
	case !g.Arrived.IsZero() && Within(at, g.Arrived, rest*pace):
		p.Held = true
	default:
		g.actedAt = at
	}
	g.last, g.lastAt = name, at
	return g, p
}

// Sure takes an unsure press for one of its own: no repeat followed.
func (g Guard) Sure(p Press) (Guard, Press) {
	g.actedAt = p.At
	p.Held, p.Unsure = false, false
	return g, p
}

// Split gives the single keys of a message. Keys that arrive in one read come
// as one message; a modified key may be an escape that ran into the next key,
// so it counts as none.
func Split(msg tea.KeyMsg) []tea.KeyMsg {
	if msg.Alt || msg.Paste {
		return nil
	}
	if msg.Type != tea.KeyRunes {
		return []tea.KeyMsg{msg}
	}
	var out []tea.KeyMsg
	for _, r := range msg.Runes {
		switch {
		case r == ' ':
			out = append(out, tea.KeyMsg{Type: tea.KeySpace, Runes: []rune{' '}})
		case r < ' ' || r == 0x7f:
			out = append(out, tea.KeyMsg{Type: tea.KeyType(r)})
		default:
			out = append(out, tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}})
		}
	}
	return out
}

// Matches says that the key is one of the bindings'.
func Matches(p Press, b ...key.Binding) bool { return key.Matches(p.KeyMsg, b...) }

// Figure gives the character of a number that the key stands for. A comma is a
// point, as on half of the world's keypads.
func Figure(p Press) (rune, bool) {
	if p.Type != tea.KeyRunes || len(p.Runes) != 1 {
		return 0, false
	}
	switch r := p.Runes[0]; {
	case r >= '0' && r <= '9', r == '.':
		return r, true
	case r == ',':
		return '.', true
	}
	return 0, false
}

// WithFigure adds a figure to a number that has one point at most.
func WithFigure(typed string, r rune) string {
	switch {
	case len(typed) == MaxFigures, r == '.' && strings.Contains(typed, "."):
		return typed
	case r == '.' && typed == "":
		return "0."
	}
	return typed + string(r)
}

// Within says that one moment follows another in less than d.
func Within(at, from timer.Moment, d time.Duration) bool {
	gone, _ := at.Since(from)
	return gone < d
}

const startle = time.Second

// MaxFigures keeps a typed number within what the large figures can show.
const MaxFigures = 7

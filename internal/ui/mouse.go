package ui

import (
	"regexp"
	"strings"

	"bench/internal/ui/ink"
	"bench/internal/ui/intent"
	"bench/internal/ui/keys"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"
)

// What a mouse does is what a key does: a click on a key in the line of keys, or
// in an alarm, is that key, and is held back where the key would be; a click in a
// list moves to that row; the wheel goes up and down. So a click makes no fact
// that its key would not.

// moreTimers is the key to all timers where some find no room.
var moreTimers = regexp.MustCompile("  " + keys.Timers.Help().Key + " [0-9]+ more")

// mostSteps is more than any list has rows.
const mostSteps = 500

// clicked answers a button or the wheel.
func (m Model) clicked(msg tea.MouseMsg) (Model, tea.Cmd) {
	if msg.Action != tea.MouseActionPress || m.small() {
		return m, nil
	}
	switch msg.Button {
	case tea.MouseButtonWheelUp:
		return m.pressed(keys.Press{KeyMsg: tea.KeyMsg{Type: tea.KeyUp}, At: m.now})
	case tea.MouseButtonWheelDown:
		return m.pressed(keys.Press{KeyMsg: tea.KeyMsg{Type: tea.KeyDown}, At: m.now})
	case tea.MouseButtonLeft:
	default:
		return m, nil
	}
	lines := m.bare()
	if msg.Y < 0 || msg.Y >= len(lines) {
		return m, nil
	}
	if line := lines[msg.Y]; msg.Y == len(lines)-1 || strings.Contains(line, " a seen z later") || moreTimers.MatchString(line) || strings.Contains(line, "  later: ") {
		if key, ok := keyAt(line, msg.X); ok {
			return m.keyed(key)
		}
		return m, nil
	}
	return m.goesTo(msg.X, msg.Y)
}

// bare gives what is on the screen without its inks.
func (m Model) bare() []string {
	var bare []string
	for _, l := range m.lines(m.width, m.height) {
		bare = append(bare, ansi.Strip(l))
	}
	return bare
}

// keyAt gives the key that stands at a column of a line, or before it with what
// it does: keys stand two blanks or more apart.
func keyAt(line string, x int) (tea.KeyMsg, bool) {
	left, right := ansi.Cut(line, 0, x), ansi.Cut(line, x, ink.Width(line))
	if strings.TrimSpace(ansi.Cut(right, 0, 1)) == "" && strings.HasSuffix(left, " ") {
		return tea.KeyMsg{}, false // Between two.
	}
	left = left[strings.LastIndex(left, "  ")+1:]
	word, _, _ := strings.Cut(right, " ")
	words := strings.Fields(strings.TrimPrefix(strings.TrimSpace(left+word), "later: "))
	if len(words) == 0 {
		return tea.KeyMsg{}, false
	}
	if _, first := keys.Named(words[0]); !first {
		return tea.KeyMsg{}, false // Off, or no key at all.
	}
	for i := len(words) - 1; i > 0; i-- {
		if key, ok := keys.Named(words[i]); ok {
			return key, true
		}
	}
	return keys.Named(words[0])
}

// goesTo moves to the row that was clicked in the column of a list: the key that
// leads there is pressed until the row has the sign of what is next, and not at
// all where it never gets it.
func (m Model) goesTo(x, y int) (Model, tea.Cmd) {
	lines := m.bare()
	column := columnOf(lines[y], x)
	want := item(lines[y], column)
	at, is := marked(lines, column)
	next, cmds := m, []tea.Cmd(nil)
	stages := m.page == intent.PageBench && column == 0 && strings.Contains(lines[y], "│")
	if is == "" && stages { // Nothing is next, and no stage has the sign.
		var cmd tea.Cmd
		next, cmd = next.pressed(keys.Press{KeyMsg: tea.KeyMsg{Type: tea.KeyLeft}, At: m.now})
		cmds = append(cmds, cmd)
		at, is = marked(next.bare(), column)
	}
	key := tea.KeyMsg{Type: towards(at < y, stages)}
	for range mostSteps {
		if want == "" || is == "" || is == want {
			return next, tea.Batch(cmds...)
		}
		var cmd tea.Cmd
		next, cmd = next.pressed(keys.Press{KeyMsg: key, At: m.now})
		cmds = append(cmds, cmd)
		_, now := marked(next.bare(), column)
		if now == "" || now == is {
			return m, nil // It is no row of the list.
		}
		is = now
	}
	return m, nil
}

// towards gives the key that leads down or up a list, or through the stages, which
// are the first of several columns.
func towards(down, stages bool) tea.KeyType {
	switch {
	case stages && down:
		return tea.KeyRight
	case stages:
		return tea.KeyLeft
	case down:
		return tea.KeyDown
	}
	return tea.KeyUp
}

// marked gives the row that has the sign of what is next in a column.
func marked(lines []string, column int) (row int, text string) {
	for i, l := range lines {
		if strings.HasPrefix(strings.TrimSpace(columnText(l, column)), ink.SignNow) {
			return i, item(l, column)
		}
	}
	return 0, ""
}

// item gives what a row is called, without its sign and what stands behind.
func item(line string, column int) string {
	text := strings.TrimLeft(columnText(line, column), " "+ink.SignNow+ink.SignDone+ink.SignOpen+ink.SignLater+ink.SignBroken+ink.SignSkipped+ink.SignSaving+ink.SignCorrected)
	text, _, _ = strings.Cut(text, "  ")
	return text
}

// columnOf counts the lines between columns before a place.
func columnOf(line string, x int) int { return strings.Count(ansi.Cut(line, 0, x), "│") }

func columnText(line string, n int) string {
	columns := strings.Split(line, "│")
	if n >= len(columns) {
		return ""
	}
	return columns[n]
}

package ink

import (
	"strings"
)

// The sizes that the screens are laid out for.
const (
	MinWidth    = 80 // minWidth and minHeight are the smallest window.
	MinHeight   = 24
	WideAt      = 110 // wideAt is the width from which there is room for a picture.
	RoomyHeight = 32  // roomyHeight is the height from which lines may breathe.
)

// Rule is a line across w cells.
func Rule(w int) string { return strings.Repeat("─", max(0, w)) }

// RuleWith is a line across w cells with a joint where columns meet it.
func RuleWith(w int, joint rune, at ...int) string {
	cells := []rune(Rule(w))
	for _, x := range at {
		cells[x] = joint
	}
	return string(cells)
}

// Hang wraps text behind a head, its later lines under its first.
func Hang(head, text string, w int) []string {
	indent := Width(head) + 1
	var lines []string
	for i, l := range Wrap(text, w-indent) {
		if i == 0 {
			lines = append(lines, head+" "+l)
		} else {
			lines = append(lines, Spaces(indent)+l)
		}
	}
	return lines
}

// Columns sets cells in as many columns as fit, down and then across.
func Columns(cells []string, w int) []string {
	if len(cells) == 0 {
		return nil
	}
	n := max(1, (w+2)/(Width(cells[0])+2))
	rows := (len(cells) + n - 1) / n
	lines := make([]string, rows)
	for i, c := range cells {
		lines[i%rows] += c + "  "
	}
	return lines
}

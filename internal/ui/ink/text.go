package ink

import (
	"fmt"
	"slices"
	"strings"

	"bench/internal/recipe"

	"github.com/charmbracelet/x/ansi"
)

// Clean makes text from outside safe to show, where it enters a view.
func Clean(s string) string {
	if strings.IndexFunc(s, func(r rune) bool { return !simple(r) }) < 0 {
		return s // Nothing to look up: almost all text.
	}
	return recipe.Clean(s)
}

// Width counts the cells of a line. Only what is not simple needs the tables of
// Unicode, which take longer than all the rest of a frame.
func Width(s string) int {
	cells, styled := 0, false
	for _, r := range s {
		switch {
		case styled:
			styled = r != 'm' // Inks are all that is in a line beside text.
		case r == '\x1b':
			styled = true
		case simple(r):
			cells++
		default:
			return ansi.StringWidth(s)
		}
	}
	return cells
}

// simple says that a character is safe to show, takes one cell and joins no
// other: those of ASCII and Latin-1, and what the screens are drawn with.
func simple(r rune) bool {
	switch {
	case r < 0x7f:
		return r >= ' '
	case r <= 0xff:
		return r > 0xa0 && r != '\u00ad' // The soft hyphen.
	case r >= '─' && r <= '◼':
		return true // Box drawing, blocks and shapes.
	case r >= 0x2800 && r <= 0x28ff || r >= 0x1fb00 && r <= 0x1fb9f || r >= 0x1cd00 && r <= 0x1ceaf || r == 0x1fbe6 || r == 0x1fbe7:
		return true // Braille, and the finer blocks that a loaf is drawn in.
	}
	return strings.ContainsRune("–…−←↑→↓✓", r)
}

// Cut shortens s to w cells, with a sign that something is missing.
func Cut(s string, w int) string {
	switch {
	case w <= 0:
		return ""
	case Width(s) <= w:
		return s
	}
	return ansi.Truncate(s, w, "…")
}

// Fit makes s exactly w cells wide.
func Fit(s string, w int) string {
	n := Width(s)
	if n > w {
		s = Cut(s, w)
		n = Width(s)
	}
	return s + Spaces(w-n)
}

// Right makes s exactly w cells wide, flush right.
func Right(s string, w int) string {
	s = Cut(s, w)
	return Spaces(w-Width(s)) + s
}

// Between puts a and b at the two ends of w cells; b gives way last.
func Between(a, b string, w int) string {
	room := w - Width(b) - 1
	if room < 1 {
		return Fit(b, w)
	}
	return Fit(a, room) + " " + Cut(b, w)
}

// Spaces is n blank cells, none where n is negative.
func Spaces(n int) string { return strings.Repeat(" ", max(0, n)) }

// Wrap breaks s into lines of at most w cells, at words where it can.
func Wrap(s string, w int) []string {
	if s == "" {
		return nil
	}
	return strings.Split(ansi.Wrap(s, max(1, w), ""), "\n")
}

// Warning is a message that must not be cut: as many lines as it needs.
func Warning(t Theme, text string, w int) []string {
	var lines []string
	for i, l := range Wrap(text, w-4) {
		head := "  "
		if i == 0 {
			head = SignOff + " "
		}
		lines = append(lines, " "+t.Off.Render(head+l))
	}
	return lines
}

// Block makes lines exactly w cells wide and h lines high.
func Block(lines []string, w, h int) []string {
	out := make([]string, h)
	for i := range out {
		if i < len(lines) {
			out[i] = Fit(lines[i], w)
		} else {
			out[i] = Spaces(w)
		}
	}
	return out
}

// Beside joins columns of the same height, with a thin line between them.
func Beside(line Ink, columns ...[]string) []string {
	out := make([]string, len(columns[0]))
	bar := line.Render("│")
	row := make([]string, len(columns))
	for i := range out {
		for n, c := range columns {
			row[n] = c[i]
		}
		out[i] = strings.Join(row, bar)
	}
	return out
}

// Window gives the part of n lines, h high, that keeps at in sight.
func Window(n, at, h int) (from, to int) {
	if n <= h {
		return 0, n
	}
	from = min(max(0, at-h/2), n-h)
	return from, from + h
}

// Scrolled gives the h of the lines around one of them; the first and the last say
// how many more there are. The arrows lead to those.
func Scrolled(t Theme, lines []string, at, h int) []string {
	from, to := Window(len(lines), at, max(0, h))
	shown := slices.Clone(lines[from:to])
	if from > 0 && at > from {
		shown[0] = t.Quiet.Render(fmt.Sprintf(" ↑ %d more", from+1))
	}
	if left := len(lines) - to; left > 0 && at < to-1 {
		shown[len(shown)-1] = t.Quiet.Render(fmt.Sprintf(" ↓ %d more", left+1))
	}
	return shown
}

// Screen makes lines into a view of at most h lines of at most w cells: the
// last guard, so that a frame never breaks.
func Screen(lines []string, w, h int) string {
	if len(lines) > h {
		lines = lines[:max(0, h)]
	}
	for i, l := range lines {
		if Width(l) > w {
			l = ansi.Truncate(l, w, "")
		}
		lines[i] = strings.TrimRight(l, " ")
	}
	return strings.Join(lines, "\n")
}

package ui

import (
	"strings"

	"bench/internal/recipe"

	"github.com/charmbracelet/lipgloss"
	"github.com/charmbracelet/x/ansi"
)

// clean makes text from outside safe to show, where it enters a view.
func clean(s string) string { return recipe.Clean(s) }

func width(s string) int { return ansi.StringWidth(s) }

// cut shortens s to w cells, with a sign that something is missing.
func cut(s string, w int) string {
	if w <= 0 {
		return ""
	}
	return ansi.Truncate(s, w, "…")
}

// fit makes s exactly w cells wide.
func fit(s string, w int) string {
	s = cut(s, w)
	return s + spaces(w-width(s))
}

// right makes s exactly w cells wide, flush right.
func right(s string, w int) string {
	s = cut(s, w)
	return spaces(w-width(s)) + s
}

// between puts a and b at the two ends of w cells; b gives way last.
func between(a, b string, w int) string {
	room := w - width(b) - 1
	if room < 1 {
		return fit(b, w)
	}
	return fit(a, room) + " " + cut(b, w)
}

func spaces(n int) string { return strings.Repeat(" ", max(0, n)) }

// wrap breaks s into lines of at most w cells, at words where it can.
func wrap(s string, w int) []string {
	if s == "" {
		return nil
	}
	return strings.Split(ansi.Wrap(s, max(1, w), ""), "\n")
}

// block makes lines exactly w cells wide and h lines high.
func block(lines []string, w, h int) []string {
	out := make([]string, h)
	for i := range out {
		if i < len(lines) {
			out[i] = fit(lines[i], w)
		} else {
			out[i] = spaces(w)
		}
	}
	return out
}

// beside joins columns of the same height, with a thin line between them.
func beside(line lipgloss.Style, columns ...[]string) []string {
	out := make([]string, len(columns[0]))
	bar := line.Render("│")
	for i := range out {
		for n, c := range columns {
			if n > 0 {
				out[i] += bar
			}
			out[i] += c[i]
		}
	}
	return out
}

// window gives the part of n lines, h high, that keeps at in sight.
func window(n, at, h int) (from, to int) {
	if n <= h {
		return 0, n
	}
	from = min(max(0, at-h/2), n-h)
	return from, from + h
}

// screen makes lines into a view of at most h lines of at most w cells: the
// last guard, so that a frame never breaks.
func screen(lines []string, w, h int) string {
	if len(lines) > h {
		lines = lines[:max(0, h)]
	}
	for i, l := range lines {
		if width(l) > w {
			l = ansi.Truncate(l, w, "")
		}
		lines[i] = strings.TrimRight(l, " ")
	}
	return strings.Join(lines, "\n")
}

package draw

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/charmbracelet/x/ansi"
)

// cell is one column of a row: a grapheme and the SGR sequences in force. The
// second column of a wide grapheme is the zero cell.
type cell struct {
	text  string
	style string
}

// replacement stands for whatever must not reach the terminal.
const replacement = string(utf8.RuneError)

func (c cell) blank() bool { return c == cell{text: " "} }

// appendCells appends the cells of a line, cut to width columns and without
// blanks at the end. A line begins unstyled, as all that lipgloss makes does. A
// blank keeps only a style that shows on it.
// Only SGR gets through; other controls and broken UTF-8 become U+FFFD.
func appendCells(cells []cell, line string, width int) []cell {
	style, shows := "", false
	for line != "" && len(cells) < width {
		if n := sgrLength(line); n > 0 {
			style = addSGR(style, line[:n])
			line, shows = line[n:], lookOf(style).inked()
			continue
		}
		text, columns := grapheme(line)
		line = line[len(text):]
		if forbidden(text) {
			text, columns = replacement, 1
		}
		if columns == 0 {
			continue // A mark without a base has no cell to live in.
		}
		if len(cells)+columns > width {
			break
		}
		if text == " " && !shows {
			cells = append(cells, cell{text: text})
			continue
		}
		cells = append(cells, cell{text, style})
		for range columns - 1 {
			cells = append(cells, cell{})
		}
	}
	for len(cells) > 0 && cells[len(cells)-1].blank() {
		cells = cells[:len(cells)-1]
	}
	return cells
}

// grapheme returns the first grapheme of a text and its columns, by the same
// measure as lipgloss. ASCII before ASCII needs no table.
func grapheme(s string) (text string, columns int) {
	if s[0] >= ' ' && s[0] < 0x7f && (len(s) == 1 || s[1] < utf8.RuneSelf) {
		return s[:1], 1
	}
	return ansi.FirstGraphemeCluster(s, ansi.GraphemeWidth)
}

// forbidden reports whether a grapheme would do more than show.
func forbidden(text string) bool {
	if text[0] >= ' ' && text[0] < 0x7f && len(text) == 1 {
		return false
	}
	return strings.ContainsFunc(text, func(r rune) bool {
		return unicode.IsControl(r) || r == utf8.RuneError
	})
}

// sgrLength returns the length of the SGR sequence (ECMA-48, 8.3.117) that the
// text begins with, or 0.
func sgrLength(s string) int {
	if !strings.HasPrefix(s, "\x1b[") {
		return 0
	}
	for i := 2; i < len(s); i++ {
		switch c := s[i]; {
		case c == 'm':
			return i + 1
		case c < '0' || c > ';': // Digits, colon and semicolon go on.
			return 0
		}
	}
	return 0
}

// addSGR returns the style after one more sequence. A style is the sequences
// since the last reset, so writing it after a reset always gives the same look.
func addSGR(style, sequence string) string {
	switch sequence {
	case "\x1b[m", "\x1b[0m":
		return ""
	}
	return style + sequence
}

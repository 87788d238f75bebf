package ink

import (
	"strings"
	"unicode/utf8"
)

// The figures to be read from across the room. Each is six by ten dots, drawn
// here two dots a character, one above the other; the strokes are two dots
// wide. 6, 8, 0 and 9 differ in the gaps at their sides and middles, 1 has a
// foot and 7 leans.
var glyphs = map[rune][5]string{ //nolint:gochecknoglobals // A table.
	'0': {"▄████▄", "██  ██", "██  ██", "██  ██", "▀████▀"},
	'1': {"  ▄██ ", "▄████ ", "   ██ ", "   ██ ", " █████"},
	'2': {"▄████▄", "▀▀  ██", " ▄███▀", "██▀   ", "██████"},
	'3': {"▄████▄", "▀▀  ██", "  ███▄", "▄▄  ██", "▀████▀"},
	'4': {"   ▄██", " ▄████", "██▀ ██", "██████", "    ██"},
	'5': {"██████", "██    ", "█████▄", "▄▄  ██", "▀████▀"},
	'6': {" ▄███▀", "██▀   ", "█████▄", "██  ██", "▀████▀"},
	'7': {"██████", "   ▄█▀", "  ▄█▀ ", " ▄██  ", " ██▀  "},
	'8': {"▄████▄", "██  ██", "▄████▄", "██  ██", "▀████▀"},
	'9': {"▄████▄", "██  ██", "▀█████", "   ▄██", "▄███▀ "},
	'–': {"      ", "      ", "██████", "      ", "      "},
	'-': {"      ", "      ", " ████ ", "      ", "      "},
	'✓': {"     ▄", "    ▄█", "█▄ ▄█▀", "▀███▀ ", "  ▀▀  "},
	'+': {"      ", "  ██  ", "██████", "  ██  ", "      "},
	'g': {"      ", "▄█████", "██  ██", "▀█████", "▄▄▄██▀"},
	'.': {"  ", "  ", "  ", "  ", "██"},
}

// Big draws a number in figures of 5·scale rows. Each figure takes the same
// width, so that a number that grows at its right end never moves sideways.
func Big(number string, scale int) []string {
	rows := make([]string, 5*scale)
	var known []rune
	for _, r := range number {
		if _, ok := glyphs[r]; ok {
			known = append(known, r)
		}
	}
	var b strings.Builder
	for i := range rows {
		b.Reset()
		b.Grow(len("█") * BigWidth(number, scale))
		for n, r := range known {
			if n > 0 {
				b.WriteString(Spaces(2 * scale))
			}
			enlarge(&b, glyphs[r], i, scale)
		}
		rows[i] = b.String()
	}
	return rows
}

// enlarge adds row i of a figure, its dots scale times as wide and as high.
func enlarge(b *strings.Builder, glyph [5]string, i, scale int) {
	if scale == 1 {
		b.WriteString(glyph[i])
		return
	}
	lower, lowerHalf := glyph[(2*i+1)/scale/2], (2*i+1)/scale%2
	for _, r := range glyph[2*i/scale/2] {
		below, size := utf8.DecodeRuneInString(lower)
		lower = lower[size:]
		dot := half(dark(r, 2*i/scale%2), dark(below, lowerHalf))
		for range scale {
			b.WriteString(dot)
		}
	}
}

// dark says whether the upper (0) or lower (1) dot of a character is set.
func dark(r rune, which int) bool {
	return r == '█' || r == '▀' && which == 0 || r == '▄' && which == 1
}

func half(upper, lower bool) string {
	switch {
	case upper && lower:
		return "█"
	case upper:
		return "▀"
	case lower:
		return "▄"
	default:
		return " "
	}
}

// BigWidth gives the cells that a number takes.
func BigWidth(number string, scale int) int {
	w := -2
	for _, r := range number {
		w += 2 + len([]rune(glyphs[r][0]))
	}
	return max(0, w*scale)
}

// Dashes gives a number's places without its figures.
func Dashes(number string) string {
	return strings.Map(func(r rune) rune {
		if r == '.' {
			return r
		}
		return '–'
	}, number)
}

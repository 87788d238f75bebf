package ink

import "strings"

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
	first := true
	for _, r := range number {
		glyph, ok := glyphs[r]
		if !ok {
			continue
		}
		for i := range rows {
			if !first {
				rows[i] += Spaces(2 * scale)
			}
			rows[i] += enlarge(glyph, i, scale)
		}
		first = false
	}
	return rows
}

// enlarge gives row i of a figure, its dots scale times as wide and as high.
func enlarge(glyph [5]string, i, scale int) string {
	if scale == 1 {
		return glyph[i]
	}
	upper, lower := []rune(glyph[2*i/scale/2]), []rune(glyph[(2*i+1)/scale/2])
	upperHalf, lowerHalf := 2*i/scale%2, (2*i+1)/scale%2
	var b strings.Builder
	for n := range upper {
		dot := half(dark(upper[n], upperHalf), dark(lower[n], lowerHalf))
		b.WriteString(strings.Repeat(dot, scale))
	}
	return b.String()
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

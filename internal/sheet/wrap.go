package sheet

import "strings"

// Wrap breaks words into lines of a width in millimetres: between words, after
// a hyphen or a slash, and inside a word only where it is longer than a line.
func Wrap(s Style, words string, width float64) []string {
	var lines []string
	line := ""
	for _, piece := range pieces(words) {
		joined := line + piece
		if line == "" {
			joined = strings.TrimLeft(piece, " ")
		}
		if Width(s, strings.TrimRight(joined, " ")) <= width {
			line = joined
			continue
		}
		if line != "" {
			lines = append(lines, strings.TrimRight(line, " "))
		}
		line = strings.TrimLeft(piece, " ")
		for Width(s, strings.TrimRight(line, " ")) > width && len([]rune(line)) > 1 {
			head, tail := cutAt(s, line, width)
			lines, line = append(lines, head), tail
		}
	}
	if line = strings.TrimRight(line, " "); line != "" || len(lines) == 0 {
		lines = append(lines, line)
	}
	return lines
}

// pieces splits where a line may break; each piece keeps its space or hyphen.
func pieces(words string) []string {
	var list []string
	start := 0
	for i, r := range words {
		if end := i + len(string(r)); (r == ' ' || r == '-' || r == '/') && end < len(words) {
			list = append(list, words[start:end])
			start = end
		}
	}
	return append(list, words[start:])
}

// cutAt cuts a word where the line is full, after one character at least.
func cutAt(s Style, word string, width float64) (head, tail string) {
	runes := []rune(word)
	n := 1
	for n < len(runes) && Width(s, string(runes[:n+1])) <= width {
		n++
	}
	return string(runes[:n]), string(runes[n:])
}

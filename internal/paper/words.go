package paper

import "strings"

// wrapped breaks words into lines of so many characters at most, between words.
func wrapped(words string, width int) []string {
	var lines []string
	line := ""
	for word := range strings.FieldsSeq(words) {
		if line != "" && len([]rune(line))+1+len([]rune(word)) > width {
			lines, line = append(lines, line), ""
		}
		if line != "" {
			line += " "
		}
		line += word
	}
	return append(lines, line)
}

package ink

import (
	"strings"
	"unicode"
)

// letterDots are how many dots high a letter is; two make a row.
const letterDots = 6

// letters are capitals of six dots, to be read from across the room where there
// is no number to show. Strokes are one dot wide, a sixth of the height.
var letters = map[rune][letterDots]string{ //nolint:gochecknoglobals // A table.
	'A': {".##.", "#..#", "#..#", "####", "#..#", "#..#"},
	'B': {"###.", "#..#", "###.", "#..#", "#..#", "###."},
	'C': {".###", "#...", "#...", "#...", "#...", ".###"},
	'D': {"###.", "#..#", "#..#", "#..#", "#..#", "###."},
	'E': {"####", "#...", "###.", "#...", "#...", "####"},
	'F': {"####", "#...", "###.", "#...", "#...", "#..."},
	'G': {".###", "#...", "#...", "#.##", "#..#", ".###"},
	'H': {"#..#", "#..#", "####", "#..#", "#..#", "#..#"},
	'I': {"###", ".#.", ".#.", ".#.", ".#.", "###"},
	'J': {"..##", "...#", "...#", "...#", "#..#", ".##."},
	'K': {"#..#", "#.#.", "##..", "##..", "#.#.", "#..#"},
	'L': {"#...", "#...", "#...", "#...", "#...", "####"},
	'M': {"#...#", "##.##", "#.#.#", "#.#.#", "#...#", "#...#"},
	'N': {"#..#", "##.#", "##.#", "#.##", "#.##", "#..#"},
	'O': {".##.", "#..#", "#..#", "#..#", "#..#", ".##."},
	'P': {"###.", "#..#", "#..#", "###.", "#...", "#..."},
	'Q': {".##.", "#..#", "#..#", "#..#", "#.#.", ".#.#"},
	'R': {"###.", "#..#", "#..#", "###.", "#.#.", "#..#"},
	'S': {".###", "#...", ".##.", "...#", "...#", "###."},
	'T': {"#####", "..#..", "..#..", "..#..", "..#..", "..#.."},
	'U': {"#..#", "#..#", "#..#", "#..#", "#..#", ".##."},
	'V': {"#...#", "#...#", "#...#", ".#.#.", ".#.#.", "..#.."},
	'W': {"#...#", "#...#", "#.#.#", "#.#.#", "##.##", "#...#"},
	'X': {"#..#", "#..#", ".##.", ".##.", "#..#", "#..#"},
	'Y': {"#...#", ".#.#.", "..#..", "..#..", "..#..", "..#.."},
	'Z': {"####", "...#", "..#.", ".#..", "#...", "####"},
	'0': {".##.", "#..#", "#.##", "##.#", "#..#", ".##."},
	'1': {".#.", "##.", ".#.", ".#.", ".#.", "###"},
	'2': {".##.", "#..#", "...#", ".##.", "#...", "####"},
	'3': {"###.", "...#", ".##.", "...#", "...#", "###."},
	'4': {"#..#", "#..#", "####", "...#", "...#", "...#"},
	'5': {"####", "#...", "###.", "...#", "...#", "###."},
	'6': {".##.", "#...", "###.", "#..#", "#..#", ".##."},
	'7': {"####", "...#", "..#.", "..#.", ".#..", ".#.."},
	'8': {".##.", "#..#", ".##.", "#..#", "#..#", ".##."},
	'9': {".##.", "#..#", ".###", "...#", "...#", ".##."},
	'.': {".", ".", ".", ".", ".", "#"},
	'?': {"###.", "...#", ".##.", ".#..", "....", ".#.."},
	'×': {"...", "...", "#.#", ".#.", "#.#", "..."},
	' ': {"..", "..", "..", "..", "..", ".."},
}

// Letters draws text in capitals of 3·scale rows; a character that has no
// letter is left out.
func Letters(text string, scale int) []string {
	rows := make([]string, letterDots/2*scale)
	for i := range rows {
		var b strings.Builder
		for _, r := range text {
			dots, ok := letters[unicode.ToUpper(r)]
			if !ok {
				continue
			}
			if b.Len() > 0 {
				b.WriteString(Spaces(scale))
			}
			upper, lower := dots[2*i/scale], dots[(2*i+1)/scale]
			for n := range upper {
				b.WriteString(strings.Repeat(half(upper[n] == '#', lower[n] == '#'), scale))
			}
		}
		rows[i] = b.String()
	}
	return rows
}

// LettersWidth gives the cells that a text takes in letters.
func LettersWidth(text string, scale int) int {
	w := -1
	for _, r := range text {
		if dots, ok := letters[unicode.ToUpper(r)]; ok {
			w += 1 + len(dots[0])
		}
	}
	return max(0, w*scale)
}

// small are words that say nothing by themselves.
const small = " a an the of in on it its is to and they may until with into by "

// Lead gives what of a sentence is shown in letters: as many of its first words
// as fit w cells, up to a comma or a colon, without small words at the ends.
func Lead(sentence string, w, scale int) string {
	if at := strings.IndexAny(sentence, ",:;("); at > 0 {
		sentence = sentence[:at]
	}
	words := strings.Fields(sentence)
	for len(words) > 0 && isSmall(words[0]) {
		words = words[1:]
	}
	n := 0
	for n < len(words) && spelt(words[n]) && LettersWidth(strings.Join(words[:n+1], " "), scale) <= w {
		n++
	}
	for n > 0 && isSmall(words[n-1]) {
		n--
	}
	return strings.Join(words[:n], " ")
}

func isSmall(word string) bool {
	return strings.Contains(small, " "+strings.ToLower(word)+" ")
}

// spelt says that there is a letter for each character.
func spelt(word string) bool {
	for _, r := range word {
		if _, ok := letters[unicode.ToUpper(r)]; !ok {
			return false
		}
	}
	return true
}

package ink

import (
	"slices"
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
		b.Grow(len("█") * lettersWidth(text, scale))
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
				for range scale {
					b.WriteString(half(upper[n] == '#', lower[n] == '#'))
				}
			}
		}
		rows[i] = b.String()
	}
	return rows
}

// lettersWidth gives the cells that a text takes in letters.
func lettersWidth(text string, scale int) int {
	w := -1
	for _, r := range text {
		if dots, ok := letters[unicode.ToUpper(r)]; ok {
			w += 1 + len(dots[0])
		}
	}
	return max(0, w*scale)
}

// small are words that say nothing by themselves; articles are those that are not
// missed in between.
const (
	small    = " a an the of in on it its is to and or they may until with into by "
	articles = " a an the "
)

// Lead gives what of a sentence is shown in letters: as many of its first words as
// fit so many lines of w cells, up to a comma or a colon, without small words at the
// ends, and without articles where they would leave no room for more. A single word
// before a colon is only said before what follows it.
func Lead(sentence string, w, scale, lines int) []string {
	words := leading(sentence)
	most, all := filled(words, w, scale, lines)
	if all {
		return most
	}
	words = slices.DeleteFunc(words, func(word string) bool { return isIn(articles, word) })
	if spare, _ := filled(words, w, scale, lines); Telling(spare) > Telling(most) {
		return spare
	}
	return most
}

// leading gives the words that a sentence begins with.
func leading(sentence string) []string {
	if head, rest, ok := strings.Cut(sentence, ": "); ok && !strings.ContainsAny(head, " ,;(") {
		sentence = rest
	}
	if at := strings.IndexAny(sentence, ",:;("); at > 0 {
		sentence = sentence[:at]
	}
	words := strings.Fields(sentence)
	for len(words) > 0 && isIn(small, words[0]) {
		words = words[1:]
	}
	return words
}

// filled puts words into lines; all says that none is left out.
func filled(words []string, w, scale, most int) (lines []string, all bool) {
	n := 0
	for range most {
		from := n
		for n < len(words) && spelt(words[n]) && lettersWidth(strings.Join(words[from:n+1], " "), scale) <= w {
			n++
		}
		if n > from {
			lines = append(lines, strings.Join(words[from:n], " "))
		}
	}
	all = n == len(words)
	for len(lines) > 0 {
		last := strings.Fields(lines[len(lines)-1])
		for len(last) > 0 && isIn(small, last[len(last)-1]) {
			last = last[:len(last)-1]
		}
		if lines[len(lines)-1] = strings.Join(last, " "); len(last) > 0 {
			break
		}
		lines = lines[:len(lines)-1]
	}
	return lines, all
}

// Telling counts the words that say something by themselves.
func Telling(lines []string) int {
	n := 0
	for _, l := range lines {
		for _, word := range strings.Fields(l) {
			if !isIn(small, word) {
				n++
			}
		}
	}
	return n
}

func isIn(list, word string) bool {
	return strings.Contains(list, " "+strings.ToLower(word)+" ")
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

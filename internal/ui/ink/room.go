package ink

import "strings"

// Readable is the width up to which a line is read without losing it.
const Readable = 100

// Roomy says that a page may lead with large letters and have a column beside its
// list: who has a large window sits as far from it and reads smaller letters.
func Roomy(w, h int) bool { return w >= WideAt && h >= RoomyHeight-4 }

// Pair sets a list and what is chosen in it side by side, in h lines of w cells.
// Each is given its width; where there is no room the list has all of it.
func Pair(line Ink, w, h int, list, chosen func(w int) []string) []string {
	if !Roomy(w, h) {
		return Block(list(w), w, h)
	}
	left := w * 5 / 9
	return Beside(line, Block(list(left), left, h), Block(chosen(w-left-1), w-left-1, h))
}

// Centred sets a column of that width into the middle of w cells.
func Centred(lines []string, w, column int) []string {
	out := make([]string, len(lines))
	for i, l := range lines {
		out[i] = Spaces((w-column)/2) + l
	}
	return out
}

// Poster draws lines of text in letters, each with a blank line after it.
func Poster(i Ink, text []string, scale int) []string {
	var lines []string
	for _, each := range text {
		for _, row := range Letters(each, scale) {
			lines = append(lines, "  "+i.Render(row))
		}
		lines = append(lines, "")
	}
	return lines
}

// tall is the height from which letters are twice as large.
const tall = 44

// Headline is the beginning of a sentence in letters, in so many lines of w cells at
// most, larger in a window of that height if they still say as much.
func Headline(i Ink, sentence string, w, h, lines int) []string {
	text := Lead(sentence, w-3, 1, lines)
	if larger := Lead(sentence, w-3, 2, lines); h >= tall && Telling(larger) >= Telling(text) {
		return Poster(i, larger, 2)
	}
	return Poster(i, text, 1)
}

// Weight is what a weight may come to take while it is typed.
const Weight = "8888.8"

// Figured draws what is being typed in figures as large as w cells and h lines
// allow, those of reserve too, with its unit and a word on it at their foot; in
// letters where it is no number.
func Figured(i Ink, typed, reserve, unit, word string, w, h int) []string {
	if strings.Trim(typed, "0123456789.–-") != "" {
		return Headline(i, typed, w, h, 2)
	}
	scale := 1
	for scale < 3 && 15*(scale+1) <= h && max(BigWidth(typed, scale+1), BigWidth(reserve, scale+1))+8+Width(unit+word) <= w {
		scale++
	}
	lines := Big(typed, scale)
	for n, row := range lines {
		lines[n] = "  " + i.Render(row) + "  "
	}
	if len(lines) > 0 {
		lines[len(lines)-1] += unit + word
	}
	return lines
}

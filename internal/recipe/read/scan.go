package read

import (
	"fmt"
	"unicode/utf8"

	"bench/internal/recipe"
)

const (
	maxSize  = 256 << 10
	maxLine  = 4096
	maxFound = 20 // maxFound bounds the unreadable characters that are listed.
)

// scan looks for what the YAML parser would report without a place or not at
// all: bad UTF-8, control characters, tabs as indentation, and characters that
// show nothing. It tells whether the text can be parsed.
func (r *reader) scan(data []byte) bool {
	if len(data) > maxSize {
		r.addf(position{1, 1}, "the file has %d bytes and a document may have %d: split it up", len(data), maxSize)
		return false
	}
	ok, indent := true, true
	at := position{1, 1}
	for i := 0; i < len(data); {
		c, size := utf8.DecodeRune(data[i:])
		if text, fatal := r.bad(data, i, c, size, indent); text != "" {
			r.addf(at, "%s", text)
			ok = ok && !fatal
			if len(r.problems) >= maxFound {
				return false
			}
		}
		i += size
		if c == '\n' {
			at, indent = position{at.line + 1, 1}, true
			continue
		}
		indent = indent && c == ' '
		if at.column++; at.column == maxLine {
			r.addf(at, "the line is longer than %d characters: break it up", maxLine)
			return false
		}
	}
	return ok
}

// bad says what is wrong with the character c at data[i], and whether the rest
// can be parsed in spite of it.
func (r *reader) bad(data []byte, i int, c rune, size int, indent bool) (text string, fatal bool) {
	switch {
	case c == utf8.RuneError && size == 1:
		return fmt.Sprintf("the byte %02x is not UTF-8 text: save the file as UTF-8", data[i]), true
	case c == '\t' && indent:
		return "a tab cannot indent: use spaces", true
	case c == '\n', c == '\t', c == '\r' && i+1 < len(data) && data[i+1] == '\n':
		return "", false
	case c == '\ufeff' && i == 0:
		return "", false
	case c == 0x85, c == 0x2028, c == 0x2029, c < ' ', c >= 0x7f && c < 0xa0:
		return fmt.Sprintf("the control character %U cannot be in a document: delete it", c), true
	case recipe.Unsafe(c):
		return fmt.Sprintf("the character %U shows nothing, or turns other text round: delete it", c), false
	}
	return "", false
}

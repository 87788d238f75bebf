package recipe

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// Clean makes text from outside safe to keep and to show: whatever a terminal
// could take for an order, or that would show nothing or turn other text round
// (control and format characters, line separators, bytes that are not UTF-8),
// becomes U+FFFD, which is visible. Line ends and tabs become spaces. A digit that
// is dressed as a keycap is a digit: terminals take one to three cells for it.
func Clean(text string) string {
	digit := false
	return strings.Map(func(r rune) rune {
		if digit && dresses(r) {
			return -1
		}
		digit = r >= '0' && r <= '9' || r == '#' || r == '*'
		switch {
		case r == '\n' || r == '\t' || r == '\r':
			return ' '
		case Unsafe(r):
			return unicode.ReplacementChar
		}
		return r
	}, strings.ToValidUTF8(text, string(unicode.ReplacementChar)))
}

// Capital begins a sentence with a text, which may be a name in any alphabet.
func Capital(text string) string {
	first, n := utf8.DecodeRuneInString(text)
	if n == 0 {
		return text
	}
	return string(unicode.ToUpper(first)) + text[n:]
}

// CleanLines is Clean for text of many lines, whose ends and tabs stay.
func CleanLines(text string) string {
	return strings.Map(func(r rune) rune {
		if r != '\n' && r != '\t' && Unsafe(r) {
			return unicode.ReplacementChar
		}
		return r
	}, strings.ToValidUTF8(text, string(unicode.ReplacementChar)))
}

// dresses tells whether the character makes a keycap of the digit before it, or says
// how the digit is to look (UTS 51, emoji keycap and presentation sequences).
func dresses(r rune) bool { return r == '\u20e3' || r == '\ufe0e' || r == '\ufe0f' }

// Unsafe tells whether Clean replaces the character: all that Unicode calls
// control, format (zero-width joiners, tags and the bidirectional controls),
// private use, surrogate, or line separator.
func Unsafe(r rune) bool {
	if r < unicode.MaxASCII {
		return r < ' ' // Asked of every character that a command prints.
	}
	return unicode.In(r, unicode.Cc, unicode.Cf, unicode.Co, unicode.Cs, unicode.Zl, unicode.Zp)
}

package draw

import (
	"strings"
	"unicode/utf8"
)

// unsure says that terminals disagree about the columns of a grapheme, so that
// the place of the next one is to be said: joined runes (UAX 29), wide ones
// (UAX 11; each Unicode makes others so) and all that no screen of ours is made
// of.
func (s *screen) unsure(text string) bool {
	if text == "" || len(text) == 1 {
		return false
	}
	r, n := utf8.DecodeRuneInString(text)
	return n < len(text) || s.wary || !settled(r)
}

// settled says that a rune takes one column wherever ambiguous ones do: Latin-1,
// and what screens are drawn with.
func settled(r rune) bool {
	switch {
	case r <= 0xff, r >= '─' && r <= '◼', r >= 0x2800 && r <= 0x28ff: // Box drawing, blocks, shapes; Braille.
		return true
	case r >= 0x1fb00 && r <= 0x1fb9f, r >= 0x1cd00 && r <= 0x1ceaf, r == 0x1fbe6, r == 0x1fbe7:
		return true // The finer blocks, which no East Asian font has as wide ones.
	}
	return strings.ContainsRune("–…−←↑→↓✓", r)
}

// waryOf says that the environment is one in which ambiguous characters (UAX 11)
// may be wide: by the variable that programs of the Go world heed, or by an East
// Asian locale.
func waryOf(getenv func(string) string) bool {
	switch getenv("RUNEWIDTH_EASTASIAN") {
	case "":
	case "0", "false":
		return false
	default:
		return true
	}
	for _, name := range []string{"LC_ALL", "LC_CTYPE", "LANG"} {
		if locale := getenv(name); locale != "" {
			return strings.HasPrefix(locale, "ja") || strings.HasPrefix(locale, "ko") || strings.HasPrefix(locale, "zh")
		}
	}
	return false
}

package main

import (
	"io"
	"strings"
	"unicode"

	"bench/internal/recipe"
)

// safeWriter is where commands print text: what a terminal could take for an
// order arrives as U+FFFD, whoever wrote it into a document or the store.
type safeWriter struct{ to io.Writer }

func (w safeWriter) Write(p []byte) (int, error) {
	if _, err := io.WriteString(w.to, safe(string(p))); err != nil {
		return 0, err
	}
	return len(p), nil
}

// safe is recipe.Clean for text of many lines.
func safe(text string) string {
	return strings.Map(func(r rune) rune {
		if r != '\n' && r != '\t' && recipe.Unsafe(r) {
			return unicode.ReplacementChar
		}
		return r
	}, strings.ToValidUTF8(text, string(unicode.ReplacementChar)))
}

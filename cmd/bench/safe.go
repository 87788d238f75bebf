package main

import (
	"io"

	"bench/internal/recipe"
)

// safeWriter is where commands print text: what a terminal could take for an
// order arrives as U+FFFD, whoever wrote it into a document or the store.
type safeWriter struct{ to io.Writer }

func (w safeWriter) Write(p []byte) (int, error) {
	if _, err := io.WriteString(w.to, recipe.CleanLines(string(p))); err != nil {
		return 0, err
	}
	return len(p), nil
}

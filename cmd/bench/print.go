package main

import (
	"fmt"
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

// printAs prints a value as text or as JSON.
func printAs[T any](a *app, asJSON bool, v T, text func(T) string, toJSON func(T) ([]byte, error)) error {
	if !asJSON {
		_, err := fmt.Fprint(a.out, text(v))
		return failed(err)
	}
	out, err := toJSON(v)
	if err == nil {
		_, err = a.out.Write(out)
	}
	return failed(err)
}

// Package sample gives the built-in workshop and recipes to tests.
//
// The rule: what it gives was read and resolved as bench does it, and a document
// with a problem fails the test that asked for it.
package sample

import (
	"io/fs"
	"testing"

	"bench/internal/recipe"
	"bench/internal/recipe/check"
	"bench/internal/recipe/read"
	"bench/recipes"
)

// Document gives a built-in document as it is written.
func Document(tb testing.TB, file string) []byte {
	tb.Helper()
	data, err := fs.ReadFile(recipes.FS(), file)
	if err != nil {
		tb.Fatal(err)
	}
	return data
}

// Workshop gives the built-in workshop.
func Workshop(tb testing.TB) recipe.Workshop {
	tb.Helper()
	w, _, problems := read.Workshop(recipes.WorkshopFile, Document(tb, recipes.WorkshopFile))
	if read.Failed(problems) {
		tb.Fatalf("%s: %v", recipes.WorkshopFile, problems)
	}
	return w
}

// Control resolves a built-in recipe in the built-in workshop; zero loaves are the
// recipe's own.
func Control(tb testing.TB, file string, loaves int) recipe.Control {
	tb.Helper()
	w, data := Workshop(tb), Document(tb, file)
	r, _, problems := read.CheckedRecipe(file, data, w, recipes.FS())
	if read.Failed(problems) {
		tb.Fatalf("%s: %v", file, problems)
	}
	c, last := check.Resolve(r, string(data), w, loaves)
	if c.Loaves == 0 {
		tb.Fatalf("%s: %v", file, last)
	}
	return c
}

// Package sample gives the built-in workshop and recipes to tests.
//
// The rule: what it gives was read and resolved as bench does it, and a document
// with a problem fails the test that asked for it.
package sample

import (
	"io/fs"
	"testing"

	"bench/internal/recipe"
	"bench/internal/recipe/read"
	"bench/recipes"
)

// Document gives a built-in document as it is written.
func Document(t testing.TB, file string) []byte {
	t.Helper()
	data, err := fs.ReadFile(recipes.FS(), file)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// Workshop gives the built-in workshop.
func Workshop(t testing.TB) recipe.Workshop {
	t.Helper()
	w, _, problems := read.Workshop(recipes.WorkshopFile, Document(t, recipes.WorkshopFile))
	if read.Failed(problems) {
		t.Fatalf("%s: %v", recipes.WorkshopFile, problems)
	}
	return w
}

// Control resolves a built-in recipe in the built-in workshop; zero loaves are the
// recipe's own.
func Control(t testing.TB, file string, loaves int) recipe.Control {
	t.Helper()
	w, data := Workshop(t), Document(t, file)
	r, _, problems := read.CheckedRecipe(file, data, w, recipes.FS())
	if read.Failed(problems) {
		t.Fatalf("%s: %v", file, problems)
	}
	c, last := recipe.Resolve(r, string(data), w, loaves)
	if c.Loaves == 0 {
		t.Fatalf("%s: %v", file, last)
	}
	return c
}

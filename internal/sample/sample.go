// Package sample gives the built-in workshop and recipes to tests.
//
// The rule: what it gives was read and resolved as bench does it, and a document
// with a problem fails the test that asked for it.
package sample

import (
	"io/fs"
	"testing"

	"bench/internal/documents"
	"bench/internal/front"
	"bench/internal/recipe"
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
	w := Workshop(tb)
	d := document(tb, file, w)
	c, problems := d.Resolve(w, loaves, 0)
	if c.Loaves == 0 {
		tb.Fatalf("%s: %v", file, problems)
	}
	return c
}

func document(tb testing.TB, file string, w recipe.Workshop) documents.Document {
	tb.Helper()
	d := documents.Read(file, Document(tb, file), recipes.FS(), w)
	if read.Failed(d.Problems) {
		tb.Fatalf("%s: %v", file, d.Problems)
	}
	return d
}

// Recipes gives two of the built-in recipes as they are chosen from.
func Recipes(tb testing.TB) []front.RecipeItem {
	tb.Helper()
	w := Workshop(tb)
	var items []front.RecipeItem
	for _, file := range []string{"lighthouse-at-dusk.yaml", "tide-lines.yaml"} {
		item := document(tb, file, w).Item(w)
		item.BuiltIn = true
		items = append(items, item)
	}
	return items
}

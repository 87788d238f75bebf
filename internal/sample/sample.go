// Package sample gives the built-in workshop and recipes to tests.
//
// The rule: what it gives was read and resolved as bench does it, and a document
// with a problem fails the test that asked for it.
package sample

import (
	"io/fs"
	"testing"

	"bench/internal/front"
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

// Recipes gives two of the built-in recipes as they are chosen from.
func Recipes(tb testing.TB) []front.RecipeItem {
	tb.Helper()
	w := Workshop(tb)
	var items []front.RecipeItem
	for _, file := range []string{"lighthouse-at-dusk.yaml", "tide-lines.yaml"} {
		text := Document(tb, file)
		r, _, problems := read.Recipe(file, text)
		if read.Failed(problems) {
			tb.Fatal(problems)
		}
		items = append(items, front.RecipeItem{
			Name: r.Name, About: r.About, File: file, Loaves: r.Loaves, BuiltIn: true,
			Resolve: func(loaves int) (recipe.Control, []string) {
				c, problems := check.Resolve(r, string(text), w, loaves)
				var words []string
				for _, p := range problems {
					if !p.Warning {
						words = append(words, p.Text)
					}
				}
				return c, words
			},
		})
	}
	return items
}

package ui

import (
	"testing"

	"bench/internal/front"
	"bench/internal/sample"
)

// builtin gives two of the built-in recipes, and one that is broken.
func builtin(t testing.TB) []front.RecipeItem {
	t.Helper()
	return append(sample.Recipes(t), front.RecipeItem{
		Name: "Gull on the quay", File: "gull.yaml",
		Problems: []string{"gull.yaml:12:9: the shares of the oils add up to 97 %, not 100 %"},
	})
}

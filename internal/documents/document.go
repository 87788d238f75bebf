package documents

import (
	"io/fs"
	"path/filepath"

	"bench/internal/front"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/recipe/check"
	"bench/internal/recipe/read"
)

// Document is a recipe as it was read, with what is wrong with it.
type Document struct {
	Problems []read.Problem

	file    string
	text    string
	builtIn bool
	recipe  recipe.Recipe
	source  read.Source
}

// Read reads and checks a recipe. Beside holds the drawings that it names.
func Read(file string, data []byte, beside fs.FS, w recipe.Workshop) Document {
	d := Document{file: file, text: string(data)}
	d.recipe, d.source, d.Problems = read.CheckedRecipe(file, data, w, beside)
	return d
}

// Resolve gives the control recipe for so many loaves and so much oil as there is
// at hand; zero leaves either to the recipe.
func (d Document) Resolve(w recipe.Workshop, loaves int, oils quantity.Mass) (recipe.Control, []read.Problem) {
	c, problems := check.ResolveOils(d.recipe, d.text, w, loaves, oils)
	return c, d.source.Place(problems)
}

// Item offers the recipe to a front.
func (d Document) Item(w recipe.Workshop) front.RecipeItem {
	item := front.RecipeItem{
		Name: d.recipe.Name, About: d.recipe.About, File: d.file, Loaves: d.recipe.Loaves, BuiltIn: d.builtIn,
		Problems: errorsOnly(d.Problems),
		Resolve: func(loaves int) (recipe.Control, []string) {
			c, problems := d.Resolve(w, loaves, 0)
			return c, errorsOnly(problems)
		},
	}
	if item.Name == "" {
		item.Name = filepath.Base(d.file)
	}
	return item
}

// errorsOnly gives the problems that keep a batch from being made, in words.
func errorsOnly(problems []read.Problem) []string {
	var words []string
	for _, p := range problems {
		if !p.Warning {
			words = append(words, p.Error())
		}
	}
	return words
}

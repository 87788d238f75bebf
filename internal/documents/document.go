package documents

import (
	"fmt"
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
	lent    []recipe.Mould // lent are the moulds that it is made in, where the workshop has none that serves.
	recipe  recipe.Recipe
	source  read.Source
}

// Read reads and checks a recipe. Beside holds the drawings that it names.
func Read(file string, data []byte, beside fs.FS, w recipe.Workshop) Document {
	d := Document{file: file, text: string(data)}
	d.recipe, d.source, d.Problems = read.CheckedRecipe(file, data, w, beside)
	return d
}

// readBuiltIn reads a recipe that the maker cannot mend. Where none of the
// maker's moulds serves, it is planned in the one that it was written for.
func readBuiltIn(f File, w recipe.Workshop) Document {
	d := Read(f.Name, f.Data, f.beside, w)
	if read.Failed(d.Problems) {
		lent := w
		lent.Moulds = builtInWorkshop().Moulds
		if in := Read(f.Name, f.Data, f.beside, lent); !read.Failed(in.Problems) {
			d = in
			d.lent = lent.Moulds
			d.Problems = append(d.Problems, d.borrowed()...)
		}
	}
	d.builtIn = true
	return d
}

// borrowed says that the maker has no such mould.
func (d Document) borrowed() []read.Problem {
	return d.source.Place([]recipe.Problem{{Path: "mould", Warning: true, Text: fmt.Sprintf(
		"your workshop has not the moulds for this: it is planned for %q of the built-in workshop; for a mould of yours, copy the recipe into your folder of recipes and name it there",
		d.recipe.Mould)}})
}

// Alone reads a recipe without a workshop: what is said of it rests on nothing else.
func (f File) Alone() []read.Problem {
	_, _, problems := read.Recipe(f.Name, f.Data, f.beside)
	return problems
}

// Resolve gives the control recipe for so many loaves and so much oil as there is
// at hand; zero leaves either to the recipe.
func (d Document) Resolve(w recipe.Workshop, loaves int, oils quantity.Mass) (recipe.Control, []read.Problem) {
	if d.lent != nil {
		w.Moulds = d.lent
	}
	c, found := check.ResolveOils(d.recipe, d.text, w, loaves, oils)
	problems := d.source.Place(found)
	if d.lent != nil && !read.Failed(problems) {
		more := d.borrowed()
		problems, c.Warnings = append(problems, more...), append(c.Warnings, more[0].Text)
	}
	return c, problems
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

package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"bench/internal/front"
	"bench/internal/recipe"
	"bench/internal/recipe/check"
	"bench/internal/recipe/read"
	"bench/recipes"
)

const (
	workshopFile = "workshop.yaml"
	recipeFolder = "recipes"
)

// maxDocument is the most that is read of a document; the reader refuses less.
const maxDocument = 1 << 20

// workshop reads the built-in workshop with the maker's own laid over it.
func workshop(home string) (recipe.Workshop, []read.Problem) {
	data, err := fs.ReadFile(recipes.FS(), recipes.WorkshopFile)
	if err != nil {
		panic(err) // It is embedded.
	}
	builtin, _, problems := read.Workshop(recipes.WorkshopFile, data)
	if len(problems) > 0 {
		panic(problems[0]) // A test reads it.
	}
	path := filepath.Join(home, workshopFile)
	own, err := readDocument(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return builtin, nil
	case err != nil:
		return builtin, []read.Problem{{File: path, Line: 1, Column: 1, Text: err.Error()}}
	}
	mine, _, problems := read.Workshop(path, own)
	if read.Failed(problems) {
		return builtin, problems
	}
	return recipe.Merge(builtin, mine), problems
}

// document is a recipe as it was read, with what is wrong with it.
type document struct {
	file     string
	text     string
	builtIn  bool
	recipe   recipe.Recipe
	source   read.Source
	problems []read.Problem
}

// readRecipe reads and checks a recipe file. Beside holds the drawings that it
// names.
func readRecipe(file string, data []byte, beside fs.FS, w recipe.Workshop) document {
	d := document{file: file, text: string(data)}
	d.recipe, d.source, d.problems = read.CheckedRecipe(file, data, w, beside)
	return d
}

// allRecipes gives the built-in recipes and the maker's own. A file that cannot
// be read is listed with its problem.
func allRecipes(home string, w recipe.Workshop) []document {
	var docs []document
	for _, name := range recipes.Files() {
		data, err := fs.ReadFile(recipes.FS(), name)
		if err != nil {
			panic(err) // It is embedded.
		}
		d := readRecipe(name, data, recipes.FS(), w)
		d.builtIn = true
		docs = append(docs, d)
	}
	var own []string
	for _, pattern := range []string{"*.yaml", "*.yml"} {
		found, _ := filepath.Glob(filepath.Join(escapeGlob(home), recipeFolder, pattern))
		own = append(own, found...)
	}
	slices.Sort(own)
	for _, path := range own {
		data, err := readDocument(path)
		if err != nil {
			docs = append(docs, document{file: path, problems: []read.Problem{{File: path, Line: 1, Column: 1, Text: err.Error()}}})
			continue
		}
		docs = append(docs, readRecipe(path, data, os.DirFS(filepath.Dir(path)), w))
	}
	return docs
}

// escapeGlob makes a folder's name mean itself in a pattern.
func escapeGlob(dir string) string {
	var out []rune
	for _, r := range dir {
		if r == '*' || r == '?' || r == '[' {
			out = append(out, '[', r, ']')
			continue
		}
		out = append(out, r)
	}
	return string(out)
}

// readDocument reads a file of bounded size.
func readDocument(path string) ([]byte, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, err
	}
	switch {
	case !info.Mode().IsRegular():
		return nil, fmt.Errorf("%s is not a file", path)
	case info.Size() > maxDocument:
		return nil, fmt.Errorf("%s is larger than %d KiB: is it a recipe?", path, maxDocument>>10)
	}
	return os.ReadFile(path)
}

// item offers a recipe to the screen.
func (d document) item(w recipe.Workshop) front.RecipeItem {
	item := front.RecipeItem{
		Name: d.recipe.Name, About: d.recipe.About, File: d.file, Loaves: d.recipe.Loaves, BuiltIn: d.builtIn,
		Resolve: func(loaves int) (recipe.Control, []string) {
			c, problems := check.Resolve(d.recipe, d.text, w, loaves)
			return c, errorsOnly(d.source.Place(problems))
		},
	}
	if item.Name == "" {
		item.Name = filepath.Base(d.file)
	}
	item.Problems = errorsOnly(d.problems)
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

// Package documents finds the maker's recipes and workshop, and the built-in ones.
//
// The rule: what cannot be read is given with its problem, and hides nothing else.
package documents

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"bench/internal/front"
	"bench/internal/recipe"
	"bench/internal/recipe/read"
	"bench/recipes"
)

// Folder has the maker's recipes, in the folder of the facts. The maker's workshop
// stands beside it, and has the name of the built-in one.
const Folder = "recipes"

// most is the most that is read of a document; the reader refuses less.
const most = 1 << 20

// builtInWorkshop reads the built-in workshop by itself.
func builtInWorkshop() recipe.Workshop {
	data, err := fs.ReadFile(recipes.FS(), recipes.WorkshopFile)
	if err != nil {
		panic(err) // It is embedded.
	}
	w, _, problems := read.Workshop(recipes.WorkshopFile, data)
	if len(problems) > 0 {
		panic(problems[0]) // A test reads it.
	}
	return w
}

// Workshop reads the built-in workshop with the maker's own laid over it.
func Workshop(home string) (recipe.Workshop, []read.Problem) {
	builtin := builtInWorkshop()
	path := filepath.Join(home, recipes.WorkshopFile)
	own, err := readFile(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return builtin, nil
	case err != nil:
		return builtin, unread(path, err)
	}
	mine, _, problems := read.Workshop(path, own)
	if read.Failed(problems) {
		return builtin, problems
	}
	return recipe.Merge(builtin, mine), problems
}

// All gives the built-in recipes, and then the maker's own.
func All(home string, w recipe.Workshop) []Document {
	var docs []Document
	for _, name := range recipes.Files() {
		docs = append(docs, builtInFile(name).Read(w))
	}
	return append(docs, own(filepath.Join(home, Folder), w)...)
}

// own gives the maker's recipes, in alphabetical order.
func own(folder string, w recipe.Workshop) []Document {
	entries, err := os.ReadDir(folder)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return []Document{{file: folder, Problems: unread(folder, err)}}
	}
	var docs []Document
	for _, e := range entries {
		if suffix := filepath.Ext(e.Name()); suffix != ".yaml" && suffix != ".yml" {
			continue
		}
		path := filepath.Join(folder, e.Name())
		data, err := readFile(path)
		if err != nil {
			docs = append(docs, Document{file: path, Problems: unread(path, err)})
			continue
		}
		docs = append(docs, Read(path, data, os.DirFS(folder), w))
	}
	return docs
}

// Items reads the workshop and the recipes anew, as they are chosen from; used says which
// sticks batches took, and may be nil.
func Items(home string, used func(recipe.Workshop) []recipe.StickUse) []front.RecipeItem {
	w, problems := Workshop(home)
	if used != nil {
		w.Used = used(w)
	}
	var items []front.RecipeItem
	if words := errorsOnly(problems); len(words) > 0 {
		items = append(items, front.RecipeItem{Name: "your workshop", File: recipes.WorkshopFile, Problems: words})
	}
	for _, d := range All(home, w) {
		items = append(items, d.Item(w))
	}
	return items
}

// MissingError says that neither a file nor a recipe has that name. It is
// fs.ErrNotExist.
type MissingError struct{ Name string }

func (e MissingError) Error() string {
	return fmt.Sprintf("there is no file %s, and no recipe of that name, neither of yours nor built in; %s", e.Name, BuiltIn())
}

// Unwrap gives fs.ErrNotExist.
func (MissingError) Unwrap() error { return fs.ErrNotExist }

// BuiltIn says which recipes can be named.
func BuiltIn() string {
	var names []string
	for _, file := range recipes.Files() {
		if file != recipes.WorkshopFile {
			names = append(names, strings.TrimSuffix(file, filepath.Ext(file)))
		}
	}
	return "built in are " + strings.Join(names, ", ")
}

// unread is the problem of what could not be read at all.
func unread(path string, err error) []read.Problem {
	return []read.Problem{{File: path, Line: 1, Column: 1, Text: err.Error()}}
}

// readFile reads a file of bounded size.
func readFile(path string) ([]byte, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, err
	}
	switch {
	case !info.Mode().IsRegular():
		return nil, fmt.Errorf("%s is not a file", path)
	case info.Size() > most:
		return nil, fmt.Errorf("%s is larger than %d KiB: is it a recipe?", path, most>>10)
	}
	return os.ReadFile(path)
}

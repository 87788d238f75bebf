package documents

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"bench/internal/recipe"
	"bench/internal/recipe/read"
	"bench/recipes"
)

// File is a document as it lies on disk, or in the program.
type File struct {
	Name string
	Data []byte

	beside  fs.FS // beside holds the drawings that it names.
	builtIn bool
}

// Read reads and checks the file as a recipe.
func (f File) Read(w recipe.Workshop) Document {
	if f.builtIn {
		return readBuiltIn(f, w)
	}
	return Read(f.Name, f.Data, f.beside, w)
}

// Open finds a document by what the maker calls it: a path comes before the
// file of a built-in recipe, and that before one of the maker's own in home; a
// recipe goes by its own name, too.
func Open(home, name string) (File, error) {
	data, err := readFile(name)
	if !errors.Is(err, fs.ErrNotExist) {
		return File{Name: name, Data: data, beside: os.DirFS(filepath.Dir(name))}, err
	}
	builtIn := recipes.Files()
	for _, file := range []string{name, name + ".yaml"} {
		if slices.Contains(builtIn, file) {
			return builtInFile(file), nil
		}
	}
	if filepath.Base(name) != name {
		return File{}, MissingError{name}
	}
	folder := filepath.Join(home, Folder)
	for _, file := range []string{name, name + ".yaml", name + ".yml"} {
		path := filepath.Join(folder, file)
		if data, err := readFile(path); !errors.Is(err, fs.ErrNotExist) {
			return File{Name: path, Data: data, beside: os.DirFS(folder)}, err
		}
	}
	return called(folder, name)
}

// called finds the recipe that states that name: the maker's own before a
// built-in one, and of two of the maker's neither.
func called(folder, name string) (File, error) {
	var found []File
	for _, f := range ownFiles(folder) {
		if f.states(name) {
			found = append(found, f)
		}
	}
	if len(found) > 1 {
		return File{}, fmt.Errorf("%s and %s both say \"recipe: %s\": name the file", found[0].Name, found[1].Name, name)
	}
	for _, file := range recipes.Files() {
		if f := builtInFile(file); len(found) == 0 && f.states(name) {
			found = append(found, f)
		}
	}
	if len(found) == 0 {
		return File{}, MissingError{name}
	}
	return found[0], nil
}

// states tells whether the document says that it is the recipe of that name.
func (f File) states(name string) bool {
	r, _, _ := read.Recipe(f.Name, f.Data, f.beside)
	return r.Name != "" && recipe.Fold(r.Name) == recipe.Fold(name)
}

// ownFiles gives the maker's recipes that can be read, in alphabetical order.
func ownFiles(folder string) []File {
	entries, _ := os.ReadDir(folder) // One that cannot be listed has none to offer.
	var files []File
	for _, e := range entries {
		if suffix := filepath.Ext(e.Name()); suffix != ".yaml" && suffix != ".yml" {
			continue
		}
		path := filepath.Join(folder, e.Name())
		if data, err := readFile(path); err == nil {
			files = append(files, File{Name: path, Data: data, beside: os.DirFS(folder)})
		}
	}
	return files
}

func builtInFile(name string) File {
	data, err := fs.ReadFile(recipes.FS(), name)
	if err != nil {
		panic(err) // It is embedded.
	}
	return File{Name: name, Data: data, beside: recipes.FS(), builtIn: true}
}

package documents

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"bench/internal/recipe/read"
	"bench/recipes"
)

const pier = "bench: 1\nrecipe: Pier\nbatters:\n  - { name: a, oils: { olive: 100 % } }\nlayers:\n  - { name: b, surface: 50 mm }\n"

// put writes files into a new folder, and gives it.
func put(t *testing.T, files map[string]string) string {
	t.Helper()
	home := t.TempDir()
	for name, text := range files {
		path := filepath.Join(home, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return home
}

// TestItems: the built-in recipes are always there; the maker's own follow in order,
// and each that cannot be read says why.
func TestItems(t *testing.T) {
	huge := strings.Repeat("# fog\n", most)
	for name, c := range map[string]struct {
		files map[string]string
		own   []string // own are names, each with a part of its problem behind a colon.
	}{
		"nothing of one's own":   {nil, nil},
		"in order":               {map[string]string{"recipes/b.yml": pier, "recipes/a.yaml": pier, "recipes/notes.txt": "fog"}, []string{"Pier:", "Pier:"}},
		"one is damaged":         {map[string]string{"recipes/a.yaml": "bench: 1\nfog", "recipes/b.yaml": pier}, []string{"a.yaml:a.yaml:2:", "Pier:"}},
		"one is no file":         {map[string]string{"recipes/a.yaml/x": "", "recipes/b.yaml": pier}, []string{"a.yaml:is not a file", "Pier:"}},
		"one is too large":       {map[string]string{"recipes/a.yaml": huge}, []string{"a.yaml:is larger than"}},
		"the folder is a file":   {map[string]string{"recipes": ""}, []string{"recipes:not a directory"}},
		"the workshop is broken": {map[string]string{"workshop.yaml": "fog"}, []string{"your workshop:workshop.yaml:1:"}},
	} {
		t.Run(name, func(t *testing.T) {
			builtIn := 0
			var own []string
			for _, item := range Items(put(t, c.files), nil) {
				if item.BuiltIn {
					builtIn++
					continue
				}
				own = append(own, item.Name+":"+strings.Join(item.Problems, "\n"))
			}
			if builtIn != len(recipes.Files()) {
				t.Errorf("%d built-in recipes, want %d", builtIn, len(recipes.Files()))
			}
			if !slices.EqualFunc(own, c.own, func(got, want string) bool {
				name, problem, _ := strings.Cut(want, ":")
				return strings.HasPrefix(got, name+":") && strings.Contains(got, problem) && (problem != "" || got == want)
			}) {
				t.Errorf("own %q, want %q", own, c.own)
			}
		})
	}
}

// TestOpen: a path comes before a built-in name, which goes without its suffix,
// too, and that before a recipe of the maker's own, by its file or by its name.
func TestOpen(t *testing.T) {
	home := put(t, map[string]string{
		"tide-lines": pier, "recipes/tide-lines.yaml": pier, "recipes/mole.yaml": pier, "recipes/end.yml": pier,
		"recipes/gale.yaml": strings.Replace(pier, "Pier", "Gale over the quay", 1),
	})
	for file, want := range map[string]string{
		"tide-lines.yaml":                  "recipe: Tide lines",
		"tide-lines":                       "recipe: Tide lines",
		filepath.Join(home, "tide-lines"):  "recipe: Pier",
		filepath.Join(home, "fog"):         "",
		recipes.WorkshopFile:               "",
		filepath.Join("..", "tide-lines"):  "",
		filepath.Join(home, "a", "b.yaml"): "",
		"mole.yaml":                        "recipe: Pier",
		"mole":                             "recipe: Pier",
		"end":                              "recipe: Pier",
		"gale":                             "recipe: Gale",
		"gale Over the quay":               "recipe: Gale",
		"tide LINES":                       "recipe: Tide lines",
		"Pier":                             "", // Two are called so.
	} {
		f, err := Open(home, file)
		if (err == nil) != (want != "") || !strings.Contains(string(f.Data), want) {
			t.Errorf("%s: %v, %.60q", file, err, f.Data)
		}
	}
	if _, err := Open(home, "pier"); err == nil || !strings.Contains(err.Error(), "mole.yaml both say") {
		t.Errorf("two of a name: %v", err)
	}
}

// TestBuiltInAnywhere: the built-in recipes can be made whatever the maker's
// workshop lists, and where its moulds do not serve they say so.
func TestBuiltInAnywhere(t *testing.T) {
	const own = "bench: 1\nworkshop: Pier\n"
	for name, c := range map[string]struct {
		workshop string
		lent     bool
	}{
		"one's own scale and pot":    {own + "scales: [{ name: old, reads: 1 g, max: 5 kg }]\nvessels: [{ name: pan, kind: pot, tare: 900 g }]\n", false},
		"no mould of that name":      {own + "moulds: [{ name: birch loaf, length: 250 mm, width: 80 mm, height: 70 mm, count: 2 }]\n", true},
		"too few of that name":       {own + "moulds: [{ name: harbour loaf, length: 220 mm, width: 70 mm, height: 65 mm, count: 1 }]\n", true},
		"of that name, but too flat": {own + "moulds: [{ name: harbour loaf, length: 220 mm, width: 70 mm, height: 20 mm, count: 3 }]\n", true},
	} {
		t.Run(name, func(t *testing.T) {
			home := put(t, map[string]string{"workshop.yaml": c.workshop, "recipes/pier.yaml": pier + "mould: fog loaf\n"})
			w, problems := Workshop(home)
			if read.Failed(problems) {
				t.Fatal(problems)
			}
			lent := 0
			for _, item := range Items(home, nil) {
				if !item.BuiltIn {
					if len(item.Problems) != 1 {
						t.Errorf("a recipe of one's own without its mould: %q", item.Problems)
					}
					continue
				}
				control, wrong := item.Resolve(item.Loaves)
				if len(item.Problems)+len(wrong) > 0 || control.Loaves != item.Loaves {
					t.Errorf("%s: %q %q", item.Name, item.Problems, wrong)
				}
				if slices.ContainsFunc(control.Warnings, func(w string) bool { return strings.Contains(w, control.Mould.Name+"\" of the built-in") }) {
					lent++
				}
			}
			if (lent > 0) != c.lent {
				t.Errorf("%d recipes say that the mould is not the maker's", lent)
			}
			f, err := Open(home, "lighthouse-at-dusk")
			if err != nil || read.Failed(f.Read(w).Problems) {
				t.Errorf("by its name: %v", err)
			}
		})
	}
}

// TestWorkshop: what the maker's own says is laid over the built-in; a broken one
// leaves the built-in whole.
func TestWorkshop(t *testing.T) {
	plain, problems := Workshop(t.TempDir())
	if read.Failed(problems) || len(plain.Scales) == 0 {
		t.Fatal(problems)
	}
	mine, problems := Workshop(put(t, map[string]string{"workshop.yaml": "workshop: 1\nfog: 1\n"}))
	if !read.Failed(problems) || len(mine.Scales) != len(plain.Scales) {
		t.Errorf("a broken workshop: %v, %d scales", problems, len(mine.Scales))
	}
	mine, problems = Workshop(put(t, map[string]string{"workshop.yaml": "bench: 1\nworkshop: Pier\nscales:\n  - { name: pier scale, reads: 1 g, max: 5 kg }\n"}))
	if read.Failed(problems) || len(mine.Scales) != 1 || mine.Scales[0].Name != "pier scale" || len(mine.Vessels) != len(plain.Vessels) {
		t.Errorf("a workshop with one scale: %v, %+v", problems, mine.Scales)
	}
}

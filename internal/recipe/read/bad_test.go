package read

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"bench/internal/golden"
)

const badFolder = "../../../testdata/recipes/bad"

// TestBad holds each broken document to its problems, all of them, in order.
func TestBad(t *testing.T) {
	w := builtinWorkshop(t)
	files, err := filepath.Glob(filepath.Join(badFolder, "*.yaml"))
	if err != nil || len(files) < 20 {
		t.Fatalf("%d broken documents: %v", len(files), err)
	}
	for _, file := range files {
		name := filepath.Base(file)
		t.Run(strings.TrimSuffix(name, ".yaml"), func(t *testing.T) {
			data, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			var problems []Problem
			if strings.HasPrefix(name, "workshop-") {
				_, _, problems = Workshop(name, data)
			} else {
				_, _, problems = CheckedRecipe(name, data, w, os.DirFS(badFolder))
			}
			var got strings.Builder
			for _, p := range problems {
				got.WriteString(p.Error() + "\n")
			}
			if got.Len() == 0 {
				t.Fatal("nothing is found wrong")
			}
			golden.Equal(t, strings.TrimSuffix(file, ".yaml")+".want", got.String())
		})
	}
}

// TestNotYAML: what the parser stumbles over is said as the maker would say it,
// in the line that it is in.
func TestNotYAML(t *testing.T) {
	const head = "bench: 1\nworkshop: Pier\nmaterials:\n  - { name: one, kind: colourant }\n"
	for name, c := range map[string]struct{ doc, want string }{
		"a shade like a remark": {
			head + "  - { name: two, kind: colourant, looks: #1f3a5f }\n  - { name: three, kind: colourant }\n",
			"w.yaml:5:42: \"#\" begins a remark here",
		},
		"the same in the last line": {head + "  - { name: two, kind: colourant, looks: #1f3a5f }\n", "w.yaml:5:42: \"#\" begins a remark here"},
		"without brackets":          {head + "  - name: two\n    kind: colourant\n    looks: #1f3a5f\n", "\"looks\" is empty: give it a value or delete the line (\"#\" begins a remark: quotes keep it)"},
		"a field that is empty":     {head + "  - name: two\n    kind: colourant\n    looks:\n", "\"looks\" is empty: give it a value or delete the line\n"},
		"a remark beside a fault":   {head + "  - { name: two, kind: colourant # dusk\n  - { name: three }\n", "not well-formed YAML near here"},
		"a line one to the right":   {head + " moulds:\n  - { name: loaf }\n", "(does a line begin further left or right than those beside it?)"},
	} {
		_, _, problems := Workshop("w.yaml", []byte(c.doc))
		words := ""
		for _, p := range problems {
			words += p.Error() + "\n"
		}
		if !strings.Contains(words, c.want) {
			t.Errorf("%s: want %q, got\n%s", name, c.want, words)
		}
	}
}

// TestOneTypo: a value that cannot be read is one problem, not also one of a value
// that is missing.
func TestOneTypo(t *testing.T) {
	_, _, problems := Workshop("w.yaml", []byte("bench: 1\nworkshop: Pier\nmaterials:\n  - { name: quay olive, kind: oil, sv: 192.9 }\n"))
	if len(problems) != 1 || !strings.Contains(problems[0].Text, "is not a saponification value") {
		t.Error(problems)
	}
}

// Package bench_test holds what is true of the house as a whole.
package bench_test

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// floors lists the packages from the top of the house down: a package may
// import those on lower floors and none beside it or above.
var floors = [][]string{
	{"cmd/bench", "internal/console", "internal/measure", "internal/decade", "internal/measure/floor", "internal/measure/drawn", "internal/measure/stored", "internal/cells/shot", "internal/sample", "internal/memory", "internal/near", "internal/golden"},
	{"internal/ledger", "internal/documents"},
	{"internal/ui", "internal/plain", "internal/files", "internal/clock", "internal/journal", "internal/brittle", "internal/recipe/read", "internal/paper", "internal/picture", "internal/draw", "internal/measure/list", "recipes"},
	{"internal/ui/bench", "internal/ui/aside", "internal/ui/home", "internal/ui/alarm"},
	{"internal/ui/after"},
	{"internal/ui/intent", "internal/ui/keys", "internal/ui/loaf"},
	{"internal/ui/ink"},
	{"internal/reply", "internal/watch"},
	{"internal/front"},
	{"internal/phrase"},
	{"internal/quiet", "internal/sheet"},
	{"internal/why", "internal/label", "internal/agenda", "internal/face", "internal/judge", "internal/say", "internal/resume", "internal/readback"},
	{"internal/steps"},
	{"internal/next"},
	{"internal/rest"},
	{"internal/work", "internal/lye", "internal/potcheck", "internal/rack", "internal/ways", "internal/curing", "internal/tell", "internal/uses"},
	{"internal/batch", "internal/scent", "internal/sticks", "internal/sure", "internal/fill"},
	{"internal/recipe/check"},
	{"internal/recipe"},
	{"internal/oils", "internal/timer", "internal/cells", "internal/solution"},
	{"internal/calc", "internal/cut", "internal/form", "internal/cure", "internal/scene"},
	{"internal/quantity"},
}

// core are the pure packages: standard library only, and of that nothing that
// reads a file, a clock, a network or chance.
var core = []string{
	"internal/face", "internal/cells", "internal/scene",
	"internal/why", "internal/label", "internal/agenda", "internal/judge", "internal/steps", "internal/rest", "internal/work", "internal/lye", "internal/potcheck", "internal/rack", "internal/ways", "internal/curing",
	"internal/batch", "internal/scent", "internal/sticks", "internal/sure", "internal/fill", "internal/tell", "internal/say", "internal/resume", "internal/readback", "internal/next", "internal/uses", "internal/recipe", "internal/recipe/check", "internal/oils", "internal/timer", "internal/solution", "internal/calc", "internal/cut", "internal/form", "internal/cure", "internal/quantity",
}

// impure are the standard packages that the core may not import. "time" is
// for its types; the clock itself is looked for by name below.
var impure = []string{"os", "io", "net", "bufio", "log", "math/rand", "math/rand/v2", "crypto/rand", "syscall", "unsafe", "os/exec", "net/http"}

func TestImportsRunOneWay(t *testing.T) {
	for dir, imports := range importsByPackage(t) {
		from := floorOf(dir)
		if from < 0 {
			t.Errorf("package %s stands on no floor: add it to the list in house_test.go and to DEVELOPERS.md", dir)
			continue
		}
		for _, imported := range imports {
			ours, ok := strings.CutPrefix(imported, "bench/")
			if ok && floorOf(ours) <= from {
				t.Errorf("%s imports %s, which is beside or above it", dir, imported)
			}
		}
	}
}

func TestTheScreenComputesNothing(t *testing.T) {
	screens := 0
	for dir, imports := range importsByPackage(t) {
		if !strings.HasPrefix(dir, "internal/ui") && !slices.Contains([]string{"internal/plain", "internal/reply", "internal/watch", "internal/front", "internal/phrase"}, dir) {
			continue
		}
		screens++
		for _, not := range []string{"bench/internal/calc", "bench/internal/solution", "bench/internal/journal", "os"} {
			if slices.Contains(imports, not) {
				t.Errorf("%s imports %s", dir, not)
			}
		}
	}
	if screens < 5 {
		t.Errorf("only %d packages of the screen were found", screens)
	}
}

func TestTheCoreIsPure(t *testing.T) {
	all := importsByPackage(t)
	for _, dir := range core {
		if len(all[dir]) == 0 {
			t.Errorf("%s imports nothing: has it moved?", dir)
		}
		for _, imported := range all[dir] {
			outside := strings.Contains(strings.SplitN(imported, "/", 2)[0], ".")
			if outside || slices.Contains(impure, imported) {
				t.Errorf("%s imports %s: the core stands on the standard library and does no I/O", dir, imported)
			}
		}
		for _, file := range sources(t, dir) {
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			for _, clock := range []string{"time.Now(", "time.Since(", "time.Until(", "time.Sleep(", "time.After(", "time.Tick("} {
				if strings.Contains(string(text), clock) {
					t.Errorf("%s calls %s): time is passed in", file, clock)
				}
			}
		}
	}
}

func TestDevelopersKnowEveryPackage(t *testing.T) {
	text, err := os.ReadFile("DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	for dir := range importsByPackage(t) {
		if !strings.Contains(string(text), "`"+dir+"`") {
			t.Errorf("DEVELOPERS.md does not say what %s is for", dir)
		}
	}
}

func floorOf(dir string) int {
	return slices.IndexFunc(floors, func(floor []string) bool { return slices.Contains(floor, dir) })
}

// importsByPackage gives what the non-test files of each package import.
func importsByPackage(t *testing.T) map[string][]string {
	t.Helper()
	all := map[string][]string{}
	err := filepath.WalkDir(".", func(file string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && (d.Name() == "testdata" || strings.HasPrefix(d.Name(), ".") && file != "."):
			return fs.SkipDir
		case d.IsDir() || !strings.HasSuffix(file, ".go") || strings.HasSuffix(file, "_test.go"):
			return nil
		}
		dir := path.Dir(filepath.ToSlash(file))
		parsed, err := parser.ParseFile(token.NewFileSet(), file, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		if all[dir] == nil {
			all[dir] = []string{}
		}
		for _, spec := range parsed.Imports {
			name, err := strconv.Unquote(spec.Path.Value)
			if err != nil {
				return err
			}
			all[dir] = append(all[dir], name)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(all) < 10 {
		t.Fatalf("only %d packages were found: is this the root of the module?", len(all))
	}
	return all
}

func sources(t *testing.T, dir string) []string {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(dir, "*.go"))
	if err != nil {
		t.Fatal(err)
	}
	return slices.DeleteFunc(files, func(f string) bool { return strings.HasSuffix(f, "_test.go") })
}

// The README shows the screen as it is.
func TestTheReadmeShowsAGoldenScreen(t *testing.T) {
	readme, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	golden, err := os.ReadFile("internal/ui/testdata/weighing.golden")
	if err != nil {
		t.Fatal(err)
	}
	_, smallest, _ := strings.Cut(string(golden), "== 80x24\n")
	smallest, _, _ = strings.Cut(smallest, "== ")
	var lines []string
	for line := range strings.Lines(smallest) {
		lines = append(lines, strings.TrimRight(line, " \n"))
	}
	screen := strings.TrimRight(strings.Join(lines, "\n"), "\n")
	screen = strings.Replace(screen, "26K25A ", "260302A", 1) // Codes of the store for tests are its own.
	if !strings.Contains(string(readme), screen) {
		t.Errorf("the screen in README.md is not that of weighing.golden:\n%s", screen)
	}
}

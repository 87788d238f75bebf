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

// Package golden compares what a test got with a file of its testdata, and writes the
// file anew with -update.
//
// The rule: a file is rewritten only when that is asked for; who asks reads the
// difference.
package golden

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "write the files of testdata anew") //nolint:gochecknoglobals // A flag of go test.

// Updates says that files are to be written anew.
func Updates() bool { return *update }

// Equal compares what was got with a file, line by line, or writes it there.
func Equal(tb testing.TB, path, got string) {
	tb.Helper()
	if *update {
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			tb.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			tb.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		tb.Fatal(err)
	}
	if diff := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(got, "\n")); diff != "" {
		tb.Errorf("%s is not as it was; if that is right, run the test with -update. Line by line:\n%s", path, diff)
	}
}

package files

import (
	"os"
	"path/filepath"
	"testing"
)

// TestWhole: after each way of writing the name has all of one content, and nothing
// is left beside it.
func TestWhole(t *testing.T) {
	for name, c := range map[string]struct {
		write      func(path string) error
		before     string // before is what the name had, or "" for no such file.
		after      string
		fails      bool
		permission os.FileMode
	}{
		"replace, the folder too": {func(p string) error { return Replace(p, []byte("dusk")) }, "", "dusk", false, 0o600},
		"replace":                 {func(p string) error { return Replace(p, []byte("dusk")) }, "moon", "dusk", false, 0o600},
		"create without a folder": {create(false), "", "", true, 0},
		"create":                  {create(false), "moon", "moon", true, 0o640},
		"create in its place":     {create(true), "moon", "dusk", false, 0o640},
	} {
		t.Run(name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "harbour", "view.txt")
			if c.before != "" {
				if err := os.Mkdir(filepath.Dir(path), 0o700); err != nil {
					t.Fatal(err)
				}
				if err := os.WriteFile(path, []byte(c.before), 0o640); err != nil {
					t.Fatal(err)
				}
			}
			if err := c.write(path); (err != nil) != c.fails {
				t.Fatalf("said %v", err)
			}
			got, _ := os.ReadFile(path)
			if string(got) != c.after {
				t.Errorf("holds %q, want %q", got, c.after)
			}
			if info, err := os.Stat(path); err == nil && info.Mode().Perm() != c.permission {
				t.Errorf("has the rights %v, want %v", info.Mode().Perm(), c.permission)
			}
			if beside, _ := os.ReadDir(filepath.Dir(path)); len(beside) > 1 {
				t.Errorf("left beside it: %v", beside)
			}
		})
	}
}

func create(replace bool) func(string) error {
	return func(path string) error {
		replaced, err := Create(path, []byte("dusk"), Open, replace)
		if err == nil && replaced != replace {
			panic("said to have replaced what it did not")
		}
		return err
	}
}

// TestLeavesAlone: what is no file is not put aside for one.
func TestLeavesAlone(t *testing.T) {
	pier := filepath.Join(t.TempDir(), "pier")
	if err := os.Mkdir(pier, 0o700); err != nil {
		t.Fatal(err)
	}
	for name, write := range map[string]func() error{
		"replace": func() error { return Replace(pier, []byte("dusk")) },
		"create":  func() error { return create(true)(pier) },
	} {
		if err := write(); err == nil {
			t.Errorf("%s: said nothing", name)
		}
		if info, err := os.Stat(pier); err != nil || !info.IsDir() {
			t.Errorf("%s: the folder is gone: %v", name, err)
		}
		if beside, _ := os.ReadDir(filepath.Dir(pier)); len(beside) != 1 {
			t.Errorf("%s left %v", name, beside)
		}
	}
}

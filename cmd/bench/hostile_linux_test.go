package main

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/console"
	"bench/internal/journal"
	"bench/internal/recipe"
	"bench/recipes"
)

// payload would set the clipboard (OSC 52), begin a control sequence by its C1
// code, ring, and turn the writing round, if a terminal came to see it.
const payload = `\e]52;c;aGFyYm91cg==\a\u009b2J\u202e\0`

// TestEscapesInEveryName puts escapes into every name, note and lot that a recipe
// and a workshop can carry, and looks at every byte that leaves the program.
func TestEscapesInEveryName(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	named := regexp.MustCompile(`(recipe|about|workshop|name|note|lot|kind of): ([^,}\n"#]+)`)
	// The mould, the batter and the materials are referred to by their names.
	referred := regexp.MustCompile(`harbour loaf|tide$|kind: |wharf`)
	for from, to := range map[string]string{"tide-lines.yaml": "recipes/hostile.yaml", recipes.WorkshopFile: "workshop.yaml"} {
		text, err := fs.ReadFile(recipes.FS(), from)
		if err != nil {
			t.Fatal(err)
		}
		n := 0
		spoilt := named.ReplaceAllStringFunc(string(text), func(field string) string {
			if referred.MatchString(field) {
				return field
			}
			n++
			key, value, _ := strings.Cut(field, ": ")
			return key + `: "` + strings.TrimSpace(value) + payload + `"`
		})
		if n < 4 {
			t.Fatalf("only %d names of %s were spoilt", n, from)
		}
		path := filepath.Join(home, to)
		if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(spoilt), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	for _, command := range []string{"check FILE", "plan FILE", "plan FILE --json", "why FILE", "why FILE --json", "label FILE", "due", "verify", "record --all"} {
		out, _ := runs(t, home, strings.Fields(strings.ReplaceAll(command, "FILE", filepath.Join(home, "recipes", "hostile.yaml")))...)
		if at := strings.IndexFunc(strings.NewReplacer("\n", "", "\t", "").Replace(out), recipe.Unsafe); at >= 0 || out == "" {
			t.Errorf("bench %s prints control characters: %.300q", command, out)
		}
	}
	c := console.Start(t, program(t, home, clocked(dawn)...), 120, 40)
	c.Sees("your workshop", "cannot be shown: delete it")
	for range 8 {
		c.Send(down)
	}
	c.Send(enter + "?")
	c.Sees("Weigh and tick", "any key back")
	c.Kill()
	showsNone(t, c)
}

// TestEscapesInFacts is about facts that another program wrote, names with
// escapes among them: nothing of the sort reaches a terminal or a file.
func TestEscapesInFacts(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	m := sits(t, home, dawn).begins("260302A")
	m.leaves()
	const raw = "\x1b]52;c;aGFyYm91cg==\a\u009b2J\u202e\x00"
	begun := kept(t, home, "260302A")[0].Fact.(batch.Started)
	c := &begun.Control
	c.Recipe.Name += raw
	c.Recipe.About += raw
	c.Mould.Name += raw
	for i := range c.Recipe.Layers {
		c.Recipe.Layers[i].Name += raw
	}
	store, err := journal.Open(home, journal.Options{})
	if err != nil {
		t.Fatal(err)
	}
	code := "260302B" + raw
	w, err := store.Hold(code, journal.Stamp{Wall: dawn})
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range []batch.Fact{begun, batch.Noted{Text: raw}, batch.Weighed{Task: "sea/water", Material: "water" + raw, Lot: raw, Scale: raw, Vessel: raw}} {
		kind, body, err := batch.Encode(f)
		if err == nil {
			_, err = w.Append(kind, body, []string{raw}, journal.Stamp{Wall: dawn})
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := store.Close(); err != nil {
		t.Fatal(err)
	}
	for _, command := range []string{"record", "record --format markdown", "record --format json", "record --all", "due", "due --json", "verify", "verify --json"} {
		out, _ := runs(t, home, strings.Fields(command)...)
		if at := strings.IndexFunc(strings.NewReplacer("\n", "", "\t", "").Replace(out), recipe.Unsafe); at >= 0 || out == "" {
			t.Errorf("bench %s prints control characters: %.300q", command, out)
		}
	}
	screen := &maker{Console: console.Start(t, program(t, home, clocked(dawn)...), 120, 40), t: t, speed: haste}
	screen.Sees("Under way", "260302B")
	screen.Send(enter)
	screen.Sees("Where you were")
	screen.rests()
	screen.Send(neutral + enter)
	screen.Wait("way on", func() bool { return !console.Holds(screen.Screen(), "Where you were") })
	screen.rests()
	screen.Send("u")
	screen.Sees("Record of batch 260302B")
	screen.Kill()
	showsNone(t, screen.Console)
}

// showsNone looks for what a terminal must not get in all that it got.
func showsNone(t *testing.T, c *console.Console) {
	t.Helper()
	for _, bad := range []string{"\x1b]52", "\u009b", "\u202e", "\a", "\x00"} {
		if strings.Contains(c.Written(), bad) {
			t.Errorf("the terminal got %q", bad)
		}
	}
}

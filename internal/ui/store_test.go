package ui

import (
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/front"
	"bench/internal/recipe"
	"bench/internal/recipe/check"
	"bench/internal/recipe/read"
	"bench/internal/timer"
	"bench/recipes"
)

// memory is a store in memory. It fails when told to, and notes what was asked
// of it.
type memory struct {
	codes   []string
	entries map[string][]batch.Entry
	held    map[string]bool
	heldBy  map[string]string
	fail    error
	remark  string
}

func newMemory() *memory {
	return &memory{entries: map[string][]batch.Entry{}, held: map[string]bool{}, heldBy: map[string]string{}}
}

func (s *memory) Batches() ([]front.BatchItem, error) {
	var items []front.BatchItem
	for _, code := range s.codes {
		items = append(items, front.BatchItem{Code: code, State: batch.Fold(s.entries[code]), HeldBy: s.heldBy[code]})
	}
	return items, nil
}

func (s *memory) Empty() bool { return len(s.codes) == 0 }

// Closed looks for words in codes only, and has room for three.
func (s *memory) Closed(words string) (front.Past, error) {
	all, err := s.Batches()
	all = slices.DeleteFunc(all, func(b front.BatchItem) bool { return !b.State.Closed() || !strings.Contains(b.Code, words) })
	slices.Reverse(all)
	return front.Past{Batches: all[:min(3, len(all))], Words: words, More: len(all) > 3}, err
}

func (s *memory) Start(c recipe.Control, at timer.Moment) (string, batch.Entry, error) {
	if s.fail != nil {
		return "", batch.Entry{}, s.fail
	}
	code := fmt.Sprintf("26K25%c", 'A'+len(s.codes))
	s.codes = append(s.codes, code)
	s.held[code] = true
	first, err := s.Append(code, batch.Started{Control: c}, at)
	return code, first, err
}

func (s *memory) Open(code string, _ timer.Moment) ([]batch.Entry, error) {
	if who := s.heldBy[code]; who != "" {
		return nil, errors.New(who)
	}
	if s.held[code] {
		return nil, fmt.Errorf("batch %s is held already", code)
	}
	s.held[code] = true
	return slices.Clone(s.entries[code]), nil
}

func (s *memory) Follow(code string) ([]batch.Entry, string, error) {
	return slices.Clone(s.entries[code]), s.heldBy[code], s.fail
}

func (s *memory) Append(code string, f batch.Fact, at timer.Moment) (batch.Entry, error) {
	switch {
	case s.fail != nil:
		return batch.Entry{}, s.fail
	case !s.held[code]:
		return batch.Entry{}, fmt.Errorf("batch %s is not held", code)
	}
	e := batch.Entry{Seq: len(s.entries[code]) + 1, At: at, Fact: f}
	s.entries[code] = append(s.entries[code], e)
	return e, nil
}

func (s *memory) Release(code string) error {
	if !s.held[code] {
		return fmt.Errorf("batch %s is not held", code)
	}
	delete(s.held, code)
	return nil
}

func (s *memory) Remark() string {
	defer func() { s.remark = "" }()
	return s.remark
}

// facts gives all facts of a batch, without its first.
func (s *memory) facts(code string) []batch.Fact {
	var out []batch.Fact
	for _, e := range s.entries[code] {
		if _, first := e.Fact.(batch.Started); !first {
			out = append(out, e.Fact)
		}
	}
	return out
}

// builtin gives two of the built-in recipes, and one that is broken.
func builtin(t testing.TB) []front.RecipeItem {
	t.Helper()
	data := func(name string) []byte {
		text, err := fs.ReadFile(recipes.FS(), name)
		if err != nil {
			t.Fatal(err)
		}
		return text
	}
	w, _, problems := read.Workshop(recipes.WorkshopFile, data(recipes.WorkshopFile))
	if read.Failed(problems) {
		t.Fatal(problems)
	}
	var items []front.RecipeItem
	for _, file := range []string{"lighthouse-at-dusk.yaml", "tide-lines.yaml"} {
		text := data(file)
		r, _, problems := read.Recipe(file, text)
		if read.Failed(problems) {
			t.Fatal(problems)
		}
		items = append(items, front.RecipeItem{
			Name: r.Name, About: r.About, File: file, Loaves: r.Loaves, BuiltIn: true,
			Resolve: func(loaves int) (recipe.Control, []string) {
				c, problems := check.Resolve(r, string(text), w, loaves)
				var words []string
				for _, p := range problems {
					if !p.Warning {
						words = append(words, p.Text)
					}
				}
				return c, words
			},
		})
	}
	return append(items, front.RecipeItem{
		Name: "Gull on the quay", File: "gull.yaml",
		Problems: []string{"gull.yaml:12:9: the shares of the oils add up to 97 %, not 100 %"},
	})
}

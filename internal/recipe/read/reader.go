package read

import (
	"fmt"
	"io/fs"
	"strings"

	"gopkg.in/yaml.v3"

	"bench/internal/recipe"
)

const (
	version     = "1" // version is that of the document format.
	maxDepth    = 8
	maxValues   = 20_000
	maxProblems = 100
)

// reader collects what is wrong with one file, and where its fields are.
type reader struct {
	file     string
	problems []Problem
	source   Source
	beside   fs.FS // beside holds the files that the document names; it may be nil.
}

func newReader(file string) *reader {
	return &reader{
		file: recipe.Clean(file),
		source: Source{
			file:   recipe.Clean(file),
			at:     map[recipe.Path]position{},
			failed: map[recipe.Path]bool{},
		},
	}
}

func (r *reader) addf(at position, format string, args ...any) {
	text := recipe.Clean(fmt.Sprintf(format, args...))
	switch n := len(r.problems); {
	case n > maxProblems:
		return
	case n == maxProblems:
		text = "there are more problems than can be listed: correct those above first"
	}
	r.problems = append(r.problems, Problem{File: r.file, Line: at.line, Column: at.column, Text: text})
}

// failf reports a field that cannot be read.
func (r *reader) failf(n *yaml.Node, p recipe.Path, format string, args ...any) {
	r.source.failed[p] = true
	r.addf(place(n), format, args...)
}

func place(n *yaml.Node) position { return position{max(1, n.Line), max(1, n.Column)} }

// finish gives what was collected, in the order of the file.
func (r *reader) finish() (Source, []Problem) {
	sortProblems(r.problems)
	return r.source, r.problems
}

// fields says how each field of a mapping is read.
type fields map[string]func(n *yaml.Node, p recipe.Path)

// names lists the fields for suggestions.
func (f fields) names() []string {
	names := make([]string, 0, len(f))
	for name := range f {
		names = append(names, name)
	}
	return names
}

// mapping reads the fields of the mapping at n. Those of required that are not
// there are reported at the mapping itself.
func (r *reader) mapping(n *yaml.Node, p recipe.Path, known fields, required ...string) {
	r.pairs(n, p, func(key, value *yaml.Node, _ int) {
		name := key.Value
		read, ok := known[name]
		if !ok {
			r.addf(place(key), "there is no field %q here%s", short(name), fieldHint(name, known.names()))
			return
		}
		at := p.Field(name)
		r.source.at[at] = place(value)
		if value.Tag == "!!null" {
			hint := ""
			if key.LineComment+value.LineComment != "" {
				hint = ` ("#" begins a remark: quotes keep it)`
			}
			r.failf(value, at, "%q is empty: give it a value or delete the line%s", name, hint)
			return
		}
		read(value, at)
	})
	for _, name := range required {
		if _, given := r.source.at[p.Field(name)]; !given && n.Kind == yaml.MappingNode {
			r.failf(n, p.Field(name), "%q is missing", name)
		}
	}
}

func fieldHint(name string, known []string) string {
	if near := recipe.Suggest(name, known); len(near) > 0 {
		return ": did you mean " + strings.Join(sorted(near), " or ") + "?"
	}
	return ": it can be " + strings.Join(sorted(known), ", ")
}

// pairs walks a mapping in its order and reports keys given twice.
func (r *reader) pairs(n *yaml.Node, p recipe.Path, each func(key, value *yaml.Node, i int)) {
	if n.Kind != yaml.MappingNode {
		r.failf(n, p, "fields like \"name: value\" are expected here, not %s", kindOf(n))
		return
	}
	first := make(map[string]int)
	for i := 0; i+1 < len(n.Content); i += 2 {
		key, value := n.Content[i], n.Content[i+1]
		if key.Kind != yaml.ScalarNode || key.Tag == "!!null" {
			r.addf(place(key), "a name is expected here, not %s", kindOf(key))
			continue
		}
		if line, twice := first[recipe.Fold(key.Value)]; twice {
			r.addf(place(key), "%q was given already, in line %d: keep one of them", short(key.Value), line)
			continue
		}
		first[recipe.Fold(key.Value)] = key.Line
		each(key, value, i/2)
	}
}

// items walks a list.
func (r *reader) items(n *yaml.Node, p recipe.Path, each func(n *yaml.Node, p recipe.Path)) {
	if n.Kind != yaml.SequenceNode {
		r.failf(n, p, "a list is expected here, each item after a dash, not %s", kindOf(n))
		return
	}
	if len(n.Content) == 0 {
		r.failf(n, p, "the list is empty: fill it or delete the line")
	}
	for i, item := range n.Content {
		at := p.Item(i)
		r.source.at[at] = place(item)
		if item.Tag == "!!null" {
			r.failf(item, at, "the item is empty: fill it or delete the dash")
			continue
		}
		each(item, at)
	}
}

func kindOf(n *yaml.Node) string {
	switch {
	case n.Kind == yaml.MappingNode:
		return "fields"
	case n.Kind == yaml.SequenceNode:
		return "a list"
	case n.Tag == "!!null":
		return "nothing"
	}
	return fmt.Sprintf("%q", short(n.Value))
}

// short bounds a piece of the file that is repeated in a problem.
func short(text string) string { return shortened(text, 40) }

func shortened(text string, most int) string {
	if r := []rune(text); len(r) > most {
		return string(r[:most]) + "…"
	}
	return text
}

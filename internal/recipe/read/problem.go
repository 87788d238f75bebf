// Package read turns the maker's YAML documents into recipe's types.
//
// The rule: a document is read from its nodes, never decoded into a struct, so
// that YAML's own ideas of numbers and truth never reach a value. Everything
// wrong is reported at once, each with its line and column; a value that could
// not be read stays zero. Reading never fails for want of memory or time: size,
// depth and counts are bounded, and there are no anchors to expand.
package read

import (
	"cmp"
	"fmt"
	"slices"

	"bench/internal/recipe"
)

// Problem is something wrong in a file. Lines and columns count from 1, columns
// in characters.
type Problem struct {
	File    string
	Line    int
	Column  int
	Text    string
	Warning bool // Warning means that a batch can be made all the same.
}

// Error gives the problem as "file:line:column: text".
func (p Problem) Error() string {
	kind := ""
	if p.Warning {
		kind = "warning: "
	}
	return fmt.Sprintf("%s:%d:%d: %s%s", p.File, p.Line, p.Column, kind, p.Text)
}

// Failed tells whether any of the problems is more than a warning.
func Failed(problems []Problem) bool {
	return slices.ContainsFunc(problems, func(p Problem) bool { return !p.Warning })
}

// position is a place in a file, counted from 1.
type position struct{ line, column int }

// Source remembers where each field of a document was written, and which
// fields could not be read.
type Source struct {
	file   string
	at     map[recipe.Path]position
	failed map[recipe.Path]bool
}

// Place gives problems of the document's content their lines and columns. A
// field that was left out is placed at the nearest one above it that is there.
// A problem that only follows from a field that could not be read is dropped.
func (s Source) Place(problems []recipe.Problem) []Problem {
	var placed []Problem
	for _, p := range problems {
		if s.follows(p.Path) {
			continue
		}
		at := s.find(p.Path)
		placed = append(placed, Problem{File: s.file, Line: at.line, Column: at.column, Text: p.Text, Warning: p.Warning})
	}
	sortProblems(placed)
	return placed
}

// follows tells whether the field at p, one above it or one below it could not
// be read.
func (s Source) follows(p recipe.Path) bool {
	for f, failed := range s.failed {
		if failed && p != "" && (within(f, p) || within(p, f)) {
			return true
		}
	}
	return false
}

// within tells whether p is q or lies below it.
func within(p, q recipe.Path) bool {
	if q == "" {
		return true
	}
	if len(p) < len(q) || p[:len(q)] != q {
		return false
	}
	return len(p) == len(q) || p[len(q)] == '.' || p[len(q)] == '['
}

// find gives the place of the field at p, or of the nearest above it.
func (s Source) find(p recipe.Path) position {
	for {
		if at, ok := s.at[p]; ok {
			return at
		}
		if p == "" {
			return position{1, 1}
		}
		p = above(p)
	}
}

// above gives the path without its last step. Names of fields hold neither
// dots nor brackets.
func above(p recipe.Path) recipe.Path {
	for i := len(p) - 1; i >= 0; i-- {
		if p[i] == '.' || p[i] == '[' {
			return p[:i]
		}
	}
	return ""
}

func sortProblems(problems []Problem) {
	slices.SortStableFunc(problems, func(a, b Problem) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column), cmp.Compare(a.Text, b.Text))
	})
}

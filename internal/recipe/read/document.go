package read

import (
	"bytes"
	"errors"
	"io"
	"slices"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"

	"bench/internal/recipe"
)

// document parses the data and gives its one mapping, or nil where that is not
// to be had.
func (r *reader) document(data []byte) *yaml.Node {
	if !r.scan(data) || !r.nesting(data) {
		return nil
	}
	decoder := yaml.NewDecoder(bytes.NewReader(data))
	lines := 1 + bytes.Count(bytes.TrimRight(data, "\n"), []byte("\n"))
	var doc yaml.Node
	err := decoder.Decode(&doc)
	switch {
	case errors.Is(err, io.EOF):
		r.addf(position{1, 1}, "the file is empty")
		return nil
	case err != nil:
		r.syntax(err, data, lines)
		return nil
	}
	var next yaml.Node
	if err := decoder.Decode(&next); err == nil {
		r.addf(place(&next), "a second document starts here: keep one to a file")
	} else if !errors.Is(err, io.EOF) {
		r.syntax(err, data, lines)
	}
	if len(doc.Content) != 1 || doc.Content[0].Kind != yaml.MappingNode {
		r.addf(place(&doc), "the file is not a document of bench: start it with \"bench: 1\"")
		return nil
	}
	root := doc.Content[0]
	values := 0
	if !r.plain(root, 0, &values) {
		return nil
	}
	r.source.at[""] = place(root)
	return root
}

// nesting refuses brackets within brackets before the parser sees them, whose
// work grows with the square of their depth. Those in quotes count too; no
// honest document has so many.
func (r *reader) nesting(data []byte) bool {
	at, depth := position{1, 0}, 0
	for _, c := range string(data) {
		at.column++
		switch c {
		case '\n':
			at = position{at.line + 1, 0}
		case '[', '{':
			depth++
		case ']', '}':
			depth = max(0, depth-1)
		}
		if depth > 10*maxDepth {
			r.addf(at, "brackets lie more than %d deep: a document has at most %d levels", 10*maxDepth, maxDepth)
			return false
		}
	}
	return true
}

// syntax reports what the parser said. It knows no column, and names the line
// after the last when the document breaks off.
func (r *reader) syntax(err error, data []byte, lines int) {
	text := strings.TrimPrefix(err.Error(), "yaml: ")
	at := position{1, 1}
	if m := line().FindStringSubmatch(text); m != nil {
		if n, err := strconv.Atoi(m[1]); err == nil {
			at.line = max(1, n)
		}
		text = text[len(m[0]):]
		if late().MatchString(text) {
			at.line++
		}
		at.line = min(at.line, lines)
	}
	if strings.HasPrefix(text, "mapping values are not allowed") {
		text += ` (text that holds ": " needs quotes)`
	}
	if strings.HasPrefix(text, "did not find expected key") {
		text += " (does a line begin further left or right than those beside it?)"
	}
	if remark, ok := remarkFor(data, at.line); ok {
		r.addf(remark, "\"#\" begins a remark here, and the rest of the line is not read: put the value in quotes, or leave the \"#\" out")
		return
	}
	r.addf(at, "this is not well-formed YAML near here: %s", shortened(text, 200)) // It repeats names from the file.
}

// remarkFor finds a remark where a value is expected within brackets, in the line
// that the parser stopped in or the one before: it takes the closing one along.
func remarkFor(data []byte, stopped int) (position, bool) {
	lines := strings.Split(string(data), "\n")
	for n := min(stopped, len(lines)); n >= max(1, stopped-1); n-- {
		m := remark().FindStringIndex(lines[n-1])
		if m != nil && strings.ContainsAny(lines[n-1][:m[0]], "{[") {
			return position{n, len([]rune(lines[n-1][:m[1]]))}, true
		}
	}
	return position{}, false
}

// plain refuses the parts of YAML that bench does not use, and bounds depth and
// number. It tells whether the tree may be read.
func (r *reader) plain(n *yaml.Node, depth int, values *int) bool {
	*values++
	switch {
	case *values > maxValues:
		r.addf(place(n), "the document has more than %d values: split it up", maxValues)
		return false
	case depth > maxDepth:
		r.addf(place(n), "this lies more than %d levels deep: there is no such field", maxDepth)
		return false
	case n.Kind == yaml.AliasNode:
		r.addf(place(n), "\"*\" stands for text written elsewhere, which is not used here: write it out, or put it in quotes")
		return false
	case n.Anchor != "":
		r.addf(place(n), "\"&\" names text to be used elsewhere, which is not used here: delete it, or put the text in quotes")
		return false
	case n.Tag == "!!merge":
		r.addf(place(n), "\"<<\" is not used here: write the fields out")
		return false
	case n.Style&yaml.TaggedStyle != 0:
		r.addf(place(n), "a value that starts with \"!\" is not used here: put it in quotes")
		return false
	}
	ok := true
	for _, c := range n.Content {
		ok = r.plain(c, depth+1, values) && ok
		if *values > maxValues {
			return false
		}
	}
	return ok
}

// format checks the version that a document states.
func (r *reader) format(n *yaml.Node, p recipe.Path) {
	if text, ok := r.text(n, p); ok && text != version {
		r.failf(n, p, "the format %q is not known: this bench reads %s", text, version)
	}
}

func sorted(words []string) []string {
	words = slices.Clone(words)
	slices.Sort(words)
	return words
}

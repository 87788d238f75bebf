package recipe

import "fmt"

// Path is the place of a field in a document, such as
// "layers[1].embeds[0].sink"; the empty path is the document itself.
type Path string

// Field gives the path of a field below p.
func (p Path) Field(name string) Path {
	if p == "" {
		return Path(name)
	}
	return p + Path("."+name)
}

// Item gives the path of the i-th item of the list at p.
func (p Path) Item(i int) Path { return Path(fmt.Sprintf("%s[%d]", p, i)) }

// Problem is something wrong with a document, and where.
type Problem struct {
	Path    Path
	Text    string // Text says what is wrong and what to do, in lower case.
	Warning bool   // Warning means that a batch can be made all the same.
}

package read

import (
	"regexp"
	"sync"
)

// The patterns of this package.
//
//nolint:gochecknoglobals // Constants.
var (
	colon     = pattern(`^(\d{1,3}(?:[.,]\d{1,3})?)\s*:\s*(\d{1,3}(?:[.,]\d{1,3})?)$`)
	hexColour = pattern(`^#?[0-9a-fA-F]{6}$`)
	// late are the words with which yaml.v3 (3.0.1, decode.go) gives a line counted
	// from 0; all others are counted from 1.
	late = pattern(`^did not find expected (node content|key|',' or|'-' indicator|<)`)
	// line is how yaml.v3 says where it stopped.
	line         = pattern(`^line (\d+): `)
	plainNumber  = pattern(`^[1-9][0-9]{0,3}$`)
	remark       = pattern(`[:,\[{]\s+#`) // remark stands where a value is expected.
	times        = pattern(`\s*[x×]\s*`)
	workshopLine = pattern(`(?m)^["']?workshop["']?[ \t]*:`)
)

// pattern gives a regular expression that is compiled when it is first asked for:
// a start has better things to do.
func pattern(text string) func() *regexp.Regexp {
	return sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(text) })
}

package reply

import (
	"cmp"
	"strings"

	"bench/internal/batch"
	"bench/internal/timer"
)

// Act is what is to be done about what was said, or nil for nothing.
//
//sumtype:decl
type Act interface{ act() }

type (
	// Keep proposes a fact. At is zero for now, or when it was first said.
	Keep struct {
		Code string
		Fact batch.Fact
		At   timer.Moment
	}
	// Question asks for one line of text.
	Question struct {
		Title string
		Hint  string
		Begun string // Begun is what was typed of the line already.
		// Make turns the line into what follows, or says in words why not.
		Make func(text string, at timer.Moment) (Act, string)
	}
)

func (Keep) act()     {}
func (Question) act() {}

// Doubted is a proposed fact that looks like a slip.
type Doubted struct {
	Fact  batch.Fact
	Words string
	Again string // Again is what to type a second time, where Words name several figures.
}

// Asks says why it is asked about, and what to type if it is right.
func (d Doubted) Asks() string {
	right := ". Right? Then type "
	if strings.HasSuffix(d.Words, "?") {
		right = " If it is right, type "
	}
	return d.Words + right + cmp.Or(d.Again, "it") + " again."
}

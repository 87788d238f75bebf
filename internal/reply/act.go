package reply

import (
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
}

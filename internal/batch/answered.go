package batch

import "strings"

// WarningSeen says that a warning was read, and what was typed to show it. A
// superfat band below zero is named by its batter, a scent over its limit by
// "scent/" and its layer.
type WarningSeen struct {
	Batter  string
	Warning string
	Typed   string `json:",omitempty"` // Typed is empty where it was read before there was a challenge.
}

// SharedAnswered says what somebody answered about a vessel that holds something of
// another batch, or about another batch's lye that stands open, and went on.
type SharedAnswered struct {
	Shared string // Shared is what was asked about, in words.
	Answer string
}

func (WarningSeen) fact()    {}
func (SharedAnswered) fact() {}

// asked is what somebody was asked about, and answered.
type asked struct {
	warning bool   // warning tells a batter's warning from what is shared: a note answers no warning.
	about   string // about is what the fact names.
	look    int    // look numbers the weighing of a vessel that was asked about.
}

// WarningSeen says that a warning was answered.
func (s State) WarningSeen(about string) bool { return s.answered[asked{warning: true, about: about}] }

// Answered says that somebody answered for what is shared.
func (s State) Answered(shared string) bool { return s.answered[asked{about: shared}] }

// answeredIn takes the answer out of a note. Programs before SharedAnswered kept it
// there: what was asked about, a colon, and the answer.
func (s *State) answeredIn(note string) {
	if !strings.Contains(note, " of batch ") && !strings.HasPrefix(note, "batch ") {
		return
	}
	for i := range note { // What was asked about may hold a colon itself.
		if strings.HasPrefix(note[i:], ": ") {
			put(&s.answered, asked{about: note[:i]}, true)
		}
	}
}

// Package intent is what a screen asks of the root: plain data.
//
// The rule: screens return intents and do nothing; only the root acts on them.
package intent

import (
	"bench/internal/front"
	"bench/internal/recipe"
	"bench/internal/reply"
)

// Action is what a screen asks of the root: plain data, or nil for nothing.
//
//sumtype:decl
type Action interface{ action() }

type (
	// Quit ends the program once the store is idle.
	Quit struct{}
	// Back leaves an overlay, or goes to the home screen.
	Back struct{}
	// Overlay opens a page above the present one.
	Overlay struct{ Page Page }
	// Prepare opens the set-up of a recipe.
	Prepare struct{ Item front.RecipeItem }
	// Start begins a batch.
	Start struct{ Control recipe.Control }
	// Open takes a batch to the bench; release, if set, is let go first.
	Open struct{ Code, Release string }
	// Follow shows a batch that another bench writes, to read along.
	Follow struct{ Code string }
	// SwitchBatch goes to the next batch that is under way.
	SwitchBatch struct{}
	// Reply does what becomes of something that was said: a fact is proposed, or
	// one line of text asked for.
	Reply struct{ reply.Act }
	// Choose opens the answers to a task; without one, what may be said of a
	// batch afterwards. Typed is a number that goes with the answer.
	Choose struct{ Task, Typed string }
	// Rack opens the batches in cure, and of the closed ones those with the words.
	Rack struct{ Words string }
	// Decide opens the ways to go on.
	Decide struct{}
	// WeighPot opens the look into a vessel.
	WeighPot struct{ Vessel string }
	// Correct opens the record of the batch.
	Correct struct{}
	// Speed turns the clock of a practice to its next speed.
	Speed struct{}
	// Forward puts the clock of a practice to just before what asks next.
	Forward struct{}
	// Word shows a quiet word.
	Word struct{ Text string }
)

func (Quit) action()        {}
func (Back) action()        {}
func (Overlay) action()     {}
func (Prepare) action()     {}
func (Start) action()       {}
func (Open) action()        {}
func (Follow) action()      {}
func (SwitchBatch) action() {}
func (Reply) action()       {}
func (Correct) action()     {}
func (Decide) action()      {}
func (WeighPot) action()    {}
func (Speed) action()       {}
func (Forward) action()     {}
func (Word) action()        {}
func (Choose) action()      {}
func (Rack) action()        {}
func (PutOff) action()      {}

// PutOff asks for how long an alarm is put off; one more key answers. Figures
// are no answer, and none is taken meanwhile.
type PutOff struct{ Code, Timer string }

// Page says which screen has the keys.
type Page int

// The pages.
const (
	PageHome Page = iota
	PageSetup
	PageBench
	PageRecord
	PageWays
	PagePot
	PageAsk
	PageAid
	PageKeys
	PageFace
	PageChoices
	PageRack
	PageTimers
)

// Of makes a reply into an action, and nothing into nothing.
func Of(act reply.Act) Action {
	if act == nil {
		return nil
	}
	return Reply{act}
}

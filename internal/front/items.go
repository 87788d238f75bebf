// Package front is what every front is given: recipes and batches to choose from, the
// door of the store, and the practice.
//
// The rule: data and doors; what a front makes of them is its own.
package front

import (
	"strings"

	"bench/internal/batch"
	"bench/internal/recipe"
	"bench/internal/steps"
	"bench/internal/uses"
)

// RecipeItem is a recipe that the maker can choose.
type RecipeItem struct {
	Name     string
	About    string
	File     string
	Loaves   int
	BuiltIn  bool
	Problems []string // Problems, when there are any, keep a batch from being started.
	Resolve  func(loaves int) (recipe.Control, []string)
}

// BatchItem is a batch in the store. HeldBy says, in words, who else writes it,
// and Left who left it without closing it.
type BatchItem struct {
	Code   string
	State  batch.State
	HeldBy string
	Left   string
}

// Past is a shelf of closed batches, the newest first; where they were looked for, with
// those under way that have the words as well.
type Past struct {
	Batches  []BatchItem
	Words    string              // Words are what each of them has; "" asks for nothing.
	More     bool                // More says that others, older ones, have them too.
	UnderWay []string            // UnderWay are the codes of those that are not closed.
	Through  map[string][]string // Through gives for one that is made of another which has it the codes between, the nearest first.
}

// Way says through which batches one has what was looked for, or "".
func (p Past) Way(code string) string {
	if len(p.Through[code]) == 0 {
		return ""
	}
	return "through " + strings.Join(p.Through[code], ", ")
}

// UnderWay is a batch with the plan that its facts lead to.
type UnderWay struct {
	BatchItem
	Plan steps.Plan
}

// Occupied lists the vessels that hold something of the batches under way, and those
// batches that still want dry hydroxide, but for the one of that code.
func Occupied(batches []UnderWay, but string) []uses.Occupied {
	var list []uses.Occupied
	for _, b := range batches {
		if b.Code != but {
			list = append(list, b.Plan.Occupies(b.Code)...)
			if b.Plan.WantsDry() {
				list = append(list, uses.Wanting(b.Code))
			}
		}
	}
	return list
}

// Planned gives a batch with its plan.
func Planned(b BatchItem) UnderWay { return UnderWay{b, steps.Of(b.State)} }

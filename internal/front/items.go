// Package front is what every front is given: recipes and batches to choose from, the
// door of the store, and the practice.
//
// The rule: data and doors; what a front makes of them is its own.
package front

import (
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

// Past is a shelf of closed batches, the newest first.
type Past struct {
	Batches []BatchItem
	Words   string // Words are what each of them has; "" asks for nothing.
	More    bool   // More says that others, older ones, have them too.
}

// UnderWay is a batch with the plan that its facts lead to.
type UnderWay struct {
	BatchItem
	Plan steps.Plan
}

// Occupied lists the vessels that hold something of the batches under way, but for
// the one of that code.
func Occupied(batches []UnderWay, but string) []uses.Occupied {
	var list []uses.Occupied
	for _, b := range batches {
		if b.Code != but {
			list = append(list, b.Plan.Occupies(b.Code)...)
		}
	}
	return list
}

// Planned gives a batch with its plan.
func Planned(b BatchItem) UnderWay { return UnderWay{b, steps.Of(b.State)} }

package label

import (
	"fmt"
	"time"

	"bench/internal/recipe"
)

// longest is the durability, in months, beyond which no date is shown but the
// period after opening (Regulation (EC) 1223/2009, article 19(1)(c), from
// memory).
const longest = 30

// Durability is how long the soap keeps, as a label says it.
type Durability struct {
	Words  string // Words are a date, or the start of one to fill in; empty where there is none.
	Months int    // Months are the period after opening for its symbol; 0 shows none.
}

// durability gives a date or a period, from what the maker states. The end of
// the month that is printed is never after the day that was meant.
func durability(l recipe.LabelWords, made time.Time) Durability {
	switch {
	case l.Keeps == 0 && l.AfterOpening == 0:
		return Durability{}
	case l.Keeps == 0 || l.Keeps > longest:
		return Durability{Months: l.AfterOpening}
	case made.IsZero():
		return Durability{Words: "Best before end: ____ /____"}
	}
	first := time.Date(made.Year(), made.Month(), 1, 0, 0, 0, 0, time.UTC)
	last := first.AddDate(0, l.Keeps, -1) // The last day of the month before.
	return Durability{Words: fmt.Sprintf("Best before end: %s", last.Format("01/2006"))}
}

package ledger

import (
	"slices"
	"strings"
	"time"

	"bench/internal/batch"
	"bench/internal/curing"
	"bench/internal/paper"
)

// barsOf says where the bars of a batch went, as its facts now stand.
func barsOf(s batch.State) *paper.Bars {
	c := curing.Of(s)
	bars := paper.Bars{Cut: c.Bars, Kept: c.Kept, Opened: c.Opened, Left: c.Left(), Went: []paper.Went{}}
	for _, went := range c.Went {
		bars.Went = append(bars.Went, paper.Went{Day: went.Moment().Wall.Format(time.DateOnly), Bars: went.Fact.Count, Where: went.Fact.Where})
	}
	slices.SortStableFunc(bars.Went, func(a, b paper.Went) int { return strings.Compare(a.Day, b.Day) })
	return &bars
}

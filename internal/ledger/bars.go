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
	bars := paper.Bars{Cut: c.Bars, Went: []paper.Went{}}
	for _, piece := range batch.All[batch.SetAside](s) {
		if piece.Fact.Piece == batch.RetainedBar {
			bars.Kept += piece.Fact.Count
		}
	}
	for _, went := range batch.All[batch.BarsWent](s) {
		bars.Went = append(bars.Went, paper.Went{Day: went.Moment().Wall.Format(time.DateOnly), Bars: went.Fact.Count, Where: went.Fact.Where})
	}
	slices.SortStableFunc(bars.Went, func(a, b paper.Went) int { return strings.Compare(a.Day, b.Day) })
	bars.Left = bars.Cut - bars.Kept - c.Gone
	return &bars
}

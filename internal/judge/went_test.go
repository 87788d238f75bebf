package judge

import (
	"testing"

	"bench/internal/batch"
)

// TestWentTo: what is said around the number and the place is in neither.
func TestWentTo(t *testing.T) {
	for text, want := range map[string]batch.BarsWent{
		"12 to the market stall":       {Count: 12, Where: "the market stall"},
		"16 bars to the harbour stall": {Count: 16, Where: "the harbour stall"},
		"1 bar went to the lighthouse": {Count: 1, Where: "the lighthouse"},
		"3 the barge at the quay":      {Count: 3, Where: "the barge at the quay"},
		"bars to the mole":             {Where: "bars to the mole"},
		"2 barrels by the pier":        {Count: 2, Where: "barrels by the pier"},
		"4 bars":                       {},
		"5 to":                         {},
	} {
		got, err := wentTo(batch.BarsWent{}, text)
		if want.Where == "" {
			if err == nil {
				t.Errorf("%q: %+v", text, got)
			}
			continue
		}
		if err != nil || got != want {
			t.Errorf("%q: %+v, %v; want %+v", text, got, err, want)
		}
	}
}

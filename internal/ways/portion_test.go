package ways_test

import (
	"strings"
	"testing"

	"bench/internal/quantity"
	"bench/internal/ways"
)

const g = quantity.Gram

// TestOfPortion: each way says how much goes from where to where; no more is poured than
// is too much there, or than the pot has, and nothing that is less than is worth pouring.
func TestOfPortion(t *testing.T) {
	others := []ways.Other{{"a/loaf 2", "jug 2", -4 * g}, {"a/loaf 3", "jug 3", -16 * g}, {"a/loaf 4", "jug 4", 9 * g}, {"a/loaf 5", "jug 5", -g}}
	for name, c := range map[string]struct {
		off, inPot quantity.Mass
		toCome     bool
		others     []ways.Other
		want       string // want are the titles' beginnings, the preselected with a star.
	}{
		"over, others to come":  {off: 20 * g, toCome: true, want: "Leave it: the portions to come; *Pour 20.0 g of jug 1 back into pot, for"},
		"over, and two under":   {off: 20 * g, others: others, want: "Leave it: height; Pour 20.0 g of jug 1 back into pot, where; *Pour 16.0 g of jug 1 over into jug 3; Pour 4.0 g of jug 1 over into jug 2"},
		"under, and one over":   {off: -20 * g, others: others, want: "Leave it: height; *Pour 9.0 g of jug 4 over into jug 1"},
		"under, some in pot":    {off: -20 * g, inPot: 12 * g, want: "Leave it: height; *Pour 12.0 g more out of pot into jug 1"},
		"under, nothing left":   {off: -20 * g, inPot: g, want: "*Leave it: height"},
		"under, others to come": {off: -20 * g, inPot: 900 * g, toCome: true, want: "Leave it: the portions to come; *Pour 20.0 g more out of pot into jug 1"},
	} {
		list := ways.OfPortion(ways.Portion{Off: c.off, Reads: g / 10, Least: 2 * g, Jug: "jug 1", Pot: "pot", InPot: c.inPot, ToCome: c.toCome, Others: c.others})
		wants := strings.Split(c.want, "; ")
		if len(list) != len(wants) {
			t.Errorf("%s: %d ways, not %d", name, len(list), len(wants))
			continue
		}
		for i, want := range wants {
			title, star := strings.CutPrefix(want, "*")
			if !strings.HasPrefix(list[i].Title, title) || list[i].Default != star {
				t.Errorf("%s: %q, preselected %v; want %q", name, list[i].Title, list[i].Default, want)
			}
		}
	}
}

package potcheck_test

import (
	"strings"
	"testing"

	"bench/internal/calc"
	"bench/internal/potcheck"
	"bench/internal/quantity"
)

const g = quantity.Gram

// TestSay: a jug of 150 g with 70 g of water and 35 g of alkali should weigh 255 g (by
// hand); up to 3 g of it may have left as steam.
func TestSay(t *testing.T) {
	part := func(name string, grams float64, in bool) calc.Candidate {
		return calc.Candidate{Name: name, Grams: grams, Tolerance: grams / 100, In: in}
	}
	jug := potcheck.Content{
		Vessel: "lye jug", Tare: 150 * g, Reads: g / 10, Slack: 0.2,
		Parts: []calc.Candidate{part("water", 70, true), part("sodium hydroxide", 35, true), part("sodium lactate", 12, false)},
	}
	jug.Expected = jug.Weigh()
	if jug.Expected != 255*g {
		t.Fatalf("it should weigh %s", jug.Expected)
	}
	hot, poured, alike := jug, jug, jug
	hot.Steam = 3 * g
	poured.Gone = 100 * g
	poured.Expected = poured.Weigh()
	alike.Parts = []calc.Candidate{part("water", 70, true), part("milk", 70, true)}
	alike.Expected = alike.Weigh()
	for name, c := range map[string]struct {
		content potcheck.Content
		gross   quantity.Mass
		want    []string
	}{
		"as it should be":        {jug, 255 * g, []string{"as it should be (it is 255.0 g, by the facts 255.0)"}},
		"steam left":             {hot, 252200 * quantity.Milligram, []string{"as it should be: 2.8 g are no more than steam can take"}},
		"more than steam can":    {hot, 250 * g, []string{"5.0 g short"}},
		"no steam is a fault":    {jug, 251 * g, []string{"4.0 g short (it is 251.0 g and should be 255.0): nothing that belongs here explains it"}},
		"alkali is missing":      {jug, 220 * g, []string{"35.0 g short", "sodium hydroxide is not in"}},
		"alkali is in twice":     {jug, 290 * g, []string{"35.0 g more than the facts say", "sodium hydroxide is in twice"}},
		"an additive without it": {jug, 267 * g, []string{"12.0 g more than the facts say", "sodium lactate is in already"}},
		"half is poured out":     {poured, 155 * g, []string{"as it should be (it is 155.0 g, by the facts 155.0)"}},
		"one of two alike":       {alike, 220 * g, []string{"70.0 g short", "ambiguous: ", "water is not in, or milk is not in"}},
	} {
		_, words, err := c.content.Check(c.gross)
		if err != nil {
			t.Errorf("%s: %v", name, err)
		}
		for _, want := range c.want {
			if !strings.Contains(words, want) {
				t.Errorf("%s: %q does not say %q", name, words, want)
			}
		}
	}
}

// TestCheckRefuses what is no weight of a vessel.
func TestCheckRefuses(t *testing.T) {
	jug := potcheck.Content{Vessel: "lye jug", Tare: 150 * g, Reads: g}
	unknown := jug
	unknown.Tare = 0
	for name, c := range map[string]struct {
		content potcheck.Content
		gross   quantity.Mass
		want    string
	}{
		"no tare":       {unknown, 255 * g, "no weight is known of lye jug empty"},
		"nothing":       {jug, 0, "is no weight of a vessel"},
		"a ton or more": {jug, 1_000_001 * g, "is no weight of a vessel"},
	} {
		if _, _, err := c.content.Check(c.gross); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

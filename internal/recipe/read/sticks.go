package read

import (
	"fmt"
	"time"

	"gopkg.in/yaml.v3"

	"bench/internal/quantity"
	"bench/internal/recipe"
)

func (r *reader) cutting(n *yaml.Node, p recipe.Path) recipe.Cutting {
	var c recipe.Cutting
	var both *quantity.Length
	r.mapping(n, p, fields{
		"bar":           into(&c.Bar, stated(measure(r, positive(quantity.ParseLength)))),
		"end trims":     into(&both, stated(measure(r, quantity.ParseLength))),
		"far end trim":  into(&c.Far, stated(measure(r, quantity.ParseLength))),
		"wire":          into(&c.Wire, stated(measure(r, quantity.ParseLength))),
		"knife":         into(&c.Knife, stated(measure(r, quantity.ParseLength))),
		"tolerance":     into(&c.Tolerance, stated(measure(r, quantity.ParseLength))),
		"minimum piece": into(&c.Minimum, stated(measure(r, positive(quantity.ParseLength)))),
		"first":         into(&c.First, choice(r, recipe.FewestSticks, recipe.FewestJoins)),
	})
	c.Near = both
	if c.Far == nil {
		c.Far = both
	}
	return c
}

// stated tells a length of zero from one that is not there.
func stated(read func(*yaml.Node, recipe.Path) quantity.Length) func(*yaml.Node, recipe.Path) *quantity.Length {
	return func(n *yaml.Node, p recipe.Path) *quantity.Length {
		l := read(n, p)
		return &l
	}
}

func (r *reader) stick(n *yaml.Node, p recipe.Path) recipe.Stick {
	var s recipe.Stick
	s.Count = 1
	r.mapping(n, p, fields{
		"name":   into(&s.Name, r.name),
		"lot":    into(&s.Lot, r.line),
		"length": into(&s.Length, measure(r, positive(quantity.ParseLength))),
		"count":  into(&s.Count, r.count),
		"made":   into(&s.Made, measure(r, parseDay)),
	}, "name", "lot", "length")
	return s
}

func (r *reader) extruder(n *yaml.Node, p recipe.Path) recipe.Extruder {
	var x recipe.Extruder
	r.mapping(n, p, fields{
		"capacity": into(&x.Capacity, measure(r, positive(quantity.ParseMass))),
		"stays":    into(&x.Stays, measure(r, quantity.ParseMass)),
		"stick":    into(&x.Stick, measure(r, positive(quantity.ParseLength))),
		"trim":     into(&x.Trim, measure(r, quantity.ParseLength)),
		"density":  into(&x.Density, measure(r, parseDoughDensity)),
	})
	return x
}

// parseDay reads a day as the calendar has it, so that days can be put in order.
func parseDay(text string) (string, error) {
	if _, err := time.Parse(time.DateOnly, text); err != nil {
		return "", fmt.Errorf("%q is not a day: write year, month and day, as in \"2026-11-03\"", short(text))
	}
	return text, nil
}

// parseDoughDensity reads "1.05 g/mL".
func parseDoughDensity(text string) (float64, error) {
	v, err := parseDensity(text)
	if err != nil || !(v >= 0.5 && v <= 2) {
		return 0, fmt.Errorf("%q is not the density of soap dough: write it like \"1.05 g/mL\"", short(text))
	}
	return v, nil
}

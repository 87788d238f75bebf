package read

import (
	"fmt"

	"gopkg.in/yaml.v3"

	"bench/internal/quantity"
	"bench/internal/recipe"
)

func (r *reader) layer(n *yaml.Node, p recipe.Path) recipe.Layer {
	var l recipe.Layer
	r.mapping(n, p, fields{
		"name":      into(&l.Name, r.name),
		"batter":    into(&l.Batter, r.name),
		"surface":   into(&l.Surface, measure(r, positive(quantity.ParseLength))),
		"share":     into(&l.Share, measure(r, positive(quantity.ParseRatio))),
		"propped":   into(&l.Propped, measure(r, parsePropping)),
		"mica line": func(n *yaml.Node, p recipe.Path) { l.MicaLine = r.topping(n, p) },
		"trace":     into(&l.Trace, choice(r, recipe.Traces()...)),
		"colours":   each(r, &l.Colours, r.colour),
		"scents":    each(r, &l.Scents, r.scent),
		"embeds":    each(r, &l.Embeds, r.embed),
	}, "name")
	if l.Trace == "" {
		l.Trace = l.DefaultTrace()
	}
	return l
}

func (r *reader) colour(n *yaml.Node, p recipe.Path) recipe.Colour {
	var c recipe.Colour
	r.mapping(n, p, fields{
		"material": into(&c.Material, r.name),
		"rate":     into(&c.Rate, measure(r, ofOils)),
		"in":       into(&c.In, choice(r, recipe.InOils, recipe.InBatter)),
	}, "material", "rate")
	return c
}

func (r *reader) scent(n *yaml.Node, p recipe.Path) recipe.Scent {
	var s recipe.Scent
	r.mapping(n, p, fields{
		"material": into(&s.Material, r.name),
		"rate": func(n *yaml.Node, p recipe.Path) {
			v := measure(r, ofSomething)(n, p)
			s.Rate, s.Of = v.value, v.of
		},
		"where": into(&s.Where, choice(r, recipe.InWarmOils, recipe.InPot, recipe.InPortions)),
	}, "material", "rate")
	return s
}

// ofSomething reads a rate that says what it is a share of, because 3 % of the
// oils and 3 % of the batter differ by half.
func ofSomething(text string) (rate, error) {
	v, err := parseRate(text)
	if err == nil && v.of == "" {
		return rate{}, fmt.Errorf("%q does not say what it is a share of: write \"%s of oils\" or \"%s of batter\"", text, text, text)
	}
	if err == nil && v.value >= quantity.Whole {
		return rate{}, fmt.Errorf("%q is more scent than soap", text)
	}
	return v, err
}

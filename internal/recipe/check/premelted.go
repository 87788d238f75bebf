package check

import (
	"slices"
	"strings"

	"bench/internal/calc"
	"bench/internal/quantity"
	"bench/internal/recipe"
)

// The policy of this file: oils that were melted together before, in fixed
// shares, are weighed as one. A recipe still asks for oils. The blend brings as
// much of them as it can without too much of any, and the rest is weighed beside
// it: so in a control recipe the blend stands among the oils, as one of them.

// premelted puts the blend that a batter names in the place of its oils.
func (c *checker) premelted(p recipe.Path, b *recipe.Batter) {
	if b.Premelted == "" {
		return
	}
	b.Premelted = c.material(p, b.Premelted, "blend of premelted oils", recipe.PremeltedMaterial)
	m, ok := material(c.w, b.Premelted)
	if !ok || m.Kind != recipe.PremeltedMaterial {
		return
	}
	blend, ok := c.blend(p, m, *b)
	if !ok {
		return
	}
	asked, shares := make([]float64, len(b.Oils)), make([]float64, len(b.Oils))
	for i, o := range b.Oils {
		asked[i], shares[i] = o.Share.Fraction(), shareOf(blend, o.Oil).Fraction()
	}
	brings, _, err := calc.FromPremelted(asked, shares)
	if err != nil {
		c.errorf(p, "%v", err)
		return
	}
	rest, left := []recipe.OilShare(nil), quantity.Whole
	for i, o := range b.Oils {
		if more := o.Share - quantity.FromFraction(brings*shares[i]); more > 0 {
			rest, left = append(rest, recipe.OilShare{Oil: o.Oil, Share: more}), left-more
		}
	}
	use := c.blended(m, blend)
	b.Oils = append([]recipe.OilShare{{Oil: use.Key, Share: left}}, rest...)
	if !slices.ContainsFunc(c.oils, func(o recipe.OilUse) bool { return o.Key == use.Key }) {
		c.oils = append(c.oils, use)
	}
}

// blend gives the oils of a blend by their keys. All of them must be asked for.
func (c *checker) blend(p recipe.Path, m recipe.Material, b recipe.Batter) ([]recipe.OilShare, bool) {
	var blend []recipe.OilShare
	for _, part := range m.Contains {
		use, ok := c.oil(p, part.Name)
		switch {
		case !ok:
			return nil, false
		case shareOf(b.Oils, use.Key) <= 0:
			c.errorf(p, "%s holds %s, and %q asks for none of it: ask for some, use another blend, or leave \"premelted\" out", m.Name, use.Name, b.Name)
			return nil, false
		case shareOf(blend, use.Key) > 0:
			c.errorf(p, "%s holds %s twice: add its shares up in the workshop file", m.Name, use.Name)
			return nil, false
		}
		blend = append(blend, recipe.OilShare{Oil: use.Key, Share: part.Share})
	}
	return blend, true
}

// blended gives what is known of a blend from its oils. The ends of its value
// are those of all its oils at once; a band takes the oils one by one.
func (c *checker) blended(m recipe.Material, blend []recipe.OilShare) recipe.OilUse {
	use := recipe.OilUse{Key: recipe.Fold(m.Name), Name: m.Name, Lot: m.Lot, Blend: blend, DensityFrom: "of its oils, as their volumes add up"}
	var volumes []calc.Part
	var from []string
	for _, part := range blend {
		o, _ := c.control(1).Oil(part.Oil)
		f := part.Share.Fraction()
		use.SV.Low += f * o.SV.Low
		use.SV.Nominal += f * o.SV.Nominal
		use.SV.High += f * o.SV.High
		use.Hard, use.Melts = use.Hard || o.Hard, max(use.Melts, o.Melts)
		volumes = append(volumes, calc.Part{Grams: f, GramsPerML: o.Density})
		from = append(from, part.Share.String()+" "+o.Name)
	}
	use.Density, use.SVFrom = calc.DensityByVolume(volumes...), "of its oils: "+strings.Join(from, ", ")
	if m.Made != "" {
		use.SVFrom += ", made " + m.Made
	}
	return use
}

func shareOf(list []recipe.OilShare, key string) quantity.Ratio {
	for _, o := range list {
		if o.Oil == key {
			return o.Share
		}
	}
	return 0
}

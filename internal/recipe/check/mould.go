package check

import (
	"slices"
	"strings"

	"bench/internal/quantity"
	"bench/internal/recipe"
)

// measures says what each kind of mould states of itself: what it needs, and
// what it may have besides a name, a kind and a count.
func measures(kind recipe.MouldKind) (needed, allowed []string) {
	switch kind {
	case recipe.CylinderMould:
		return []string{"diameter", "height"}, []string{"liner"}
	case recipe.LyingMould:
		return []string{"diameter", "length"}, []string{"height", "liner"}
	case recipe.CavityMould:
		return nil, []string{"cavities", "volume", "holds water"}
	case recipe.LoafMould, recipe.SlabMould:
	}
	return []string{"length", "width", "height"}, []string{"floor width", "floor length", "liner"}
}

// workshopMould checks that a mould states what its kind has, and nothing that
// would never be looked at.
func (c *checker) workshopMould(p recipe.Path, m recipe.Mould) {
	kind := m.Kind
	if kind == "" {
		kind = recipe.LoafMould
	}
	needed, allowed := measures(kind)
	before := len(c.problems)
	for _, f := range []struct {
		name  string
		given bool
	}{
		{"length", m.Length > 0},
		{"width", m.Width > 0},
		{"height", m.Height > 0},
		{"diameter", m.Diameter > 0},
		{"floor width", m.FloorWidth > 0},
		{"floor length", m.FloorLength > 0},
		{"liner", m.Liner > 0},
		{"cavities", m.Cavities > 0},
		{"volume", m.Volume > 0},
		{"holds water", m.HoldsWater > 0},
	} {
		switch {
		case !f.given && slices.Contains(needed, f.name):
			c.errorf(p.Field(f.name), "%q is missing: %s states its %s", f.name, mouldNoun(kind), strings.Join(needed, ", "))
		case f.given && !slices.Contains(needed, f.name) && !slices.Contains(allowed, f.name):
			c.errorf(p.Field(f.name), "%q does not apply to %s: leave it out, or correct its kind", f.name, mouldNoun(kind))
		}
	}
	if len(c.problems) == before {
		c.mouldSizes(p, m)
	}
}

func mouldNoun(kind recipe.MouldKind) string {
	if kind == recipe.CavityMould {
		return "a mould of cavities"
	}
	return article(string(kind))
}

// mouldSizes checks that the measures go together and leave some room inside.
func (c *checker) mouldSizes(p recipe.Path, m recipe.Mould) {
	in := m.Inside()
	switch {
	case m.Kind == recipe.CavityMould && (m.Volume > 0) == (m.HoldsWater > 0):
		c.errorf(p, "say what %q holds: the \"volume\" of one cavity, or in \"holds water\" the weight of the water that fills all of it, not both", m.Name)
	case m.FloorWidth > m.Width && m.Kind != recipe.CavityMould:
		c.errorf(p.Field("floor width"), "%q is wider at the floor than at the rim: the loaf would not come out", m.Name)
	case m.FloorLength > m.Length:
		c.errorf(p.Field("floor length"), "%q is longer at the floor than at the rim: the loaf would not come out", m.Name)
	case m.Kind == recipe.LyingMould && m.Height > m.Diameter:
		c.errorf(p.Field("height"), "%q is a cylinder of %s and cannot be %s high inside", m.Name, m.Diameter, m.Height)
	case min(in.Width, in.Height) <= 0 && m.HasHeights(), in.Length < 0, m.Liner > 0 && in.Section().Floor < 0:
		c.errorf(p.Field("liner"), "a liner of %s leaves no room in %q", m.Liner, m.Name)
	case in.Capacity() < quantity.Millilitre:
		c.errorf(p, "%q holds less than 1 ml: check its measures", m.Name)
	}
}

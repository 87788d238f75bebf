package label

import (
	"slices"
	"strings"

	"bench/internal/calc"
	"bench/internal/oils"
	"bench/internal/recipe"
	"bench/internal/recipe/check"
)

// naming finds what a thing is called on a label. The maker's workshop as it is
// now comes first, because a name is no part of what happened in a batch; what
// a batch froze stands in for what is no longer listed.
type naming struct {
	control recipe.Control
	options Options
}

// name is a name with where it can be trusted.
type name struct {
	words  string
	verify bool
	own    bool // own says that the maker stated it.
}

func (n naming) material(called string) (recipe.Material, bool) {
	f := recipe.Fold(called)
	for _, list := range [][]recipe.Material{n.options.Workshop.Materials, n.control.Materials} {
		if i := slices.IndexFunc(list, func(m recipe.Material) bool { return recipe.Fold(m.Name) == f }); i >= 0 {
			return list[i], true
		}
	}
	return recipe.Material{}, false
}

// allergens are those of the lot that went in, as it was frozen, or else as the
// workshop has it now.
func (n naming) allergens(called string) []recipe.Part {
	if m, ok := n.control.Material(called); ok && len(m.Allergens) > 0 {
		return m.Allergens
	}
	m, _ := n.material(called)
	return m.Allergens
}

func (n naming) oilNamed(called string) (recipe.OilUse, bool) {
	i := slices.IndexFunc(n.control.Oils, func(o recipe.OilUse) bool { return o.Name == called })
	if i < 0 {
		return recipe.OilUse{}, false
	}
	return n.control.Oils[i], true
}

// row finds the row of the table that a name stands for: its key, its name, or
// an oil of the workshop.
func (n naming) row(called string) (oils.Oil, bool) {
	if m, ok := n.material(called); ok && m.Kind == recipe.OilMaterial {
		return rowOf(check.OilKey(m), m.Name, m.SV), true
	}
	f := recipe.Fold(called)
	for _, o := range oils.All() {
		if recipe.Fold(o.Key) == f || recipe.Fold(o.Name) == f {
			return o, true
		}
	}
	return oils.Oil{}, false
}

// rowOf gives the row of an oil's key. For one that only the workshop has, it
// holds what the maker calls it, to be verified like a name from memory.
func rowOf(key, called string, sv calc.Interval) oils.Oil {
	if row, ok := oils.ByKey(key); ok {
		return row
	}
	return oils.Oil{
		Key: key, Name: called, INCI: called, SoapINCI: "Sodium soap of " + called, Names: oils.Memory,
		SV: oils.Range{Low: sv.Low, High: sv.High},
	}
}

// oil gives an oil's name as an ingredient and as its sodium soap: the maker's
// own, or the table's, which is marked where the table has it from memory.
func (n naming) oil(row oils.Oil) (asOil, asSoap name) {
	verify := row.Names != oils.Found
	asOil, asSoap = name{words: row.INCI, verify: verify}, name{words: row.SoapINCI, verify: verify}
	for _, m := range n.options.Workshop.Materials {
		if m.Kind != recipe.OilMaterial || check.OilKey(m) != row.Key {
			continue
		}
		if m.INCI != "" {
			asOil = name{words: m.INCI, own: true}
		}
		if m.SoapINCI != "" {
			asSoap = name{words: m.SoapINCI, own: true}
		}
	}
	return asOil, asSoap
}

// water is "Aqua" in the EU and the UK, "Water" in the USA (from memory).
func (n naming) water() string {
	if n.options.Market == US {
		return "Water"
	}
	return "Aqua"
}

// scent is the word for a perfume that is not named: Regulation (EC) 1223/2009,
// article 19(1)(g), from memory; 21 CFR 701.3(a).
func (n naming) scent() string {
	if n.options.Market == US {
		return "Fragrance"
	}
	return "Parfum"
}

// usColours are the names that the USA asks for instead of colour index
// numbers (21 CFR parts 73 and 701.3, from memory).
var usColours = map[string]string{ //nolint:gochecknoglobals // A table.
	"CI 77007": "Ultramarines",
	"CI 77019": "Mica",
	"CI 77288": "Chromium Oxide Greens",
	"CI 77289": "Chromium Hydroxide Green",
	"CI 77491": "Iron Oxides",
	"CI 77492": "Iron Oxides",
	"CI 77499": "Iron Oxides",
	"CI 77510": "Ferric Ferrocyanide",
	"CI 77742": "Manganese Violet",
	"CI 77861": "Tin Oxide",
	"CI 77891": "Titanium Dioxide",
}

// colour gives a colour's name in the market.
func (n naming) colour(inci string) name {
	if n.options.Market != US {
		return name{words: inci, own: true}
	}
	if us, ok := usColours[inci]; ok {
		return name{words: us, verify: true}
	}
	return name{words: inci, verify: true}
}

// isColour says that a name is a colour index number.
func isColour(inci string) bool { return strings.HasPrefix(strings.ToUpper(inci), "CI ") }

// parts splits the names of a mixture, such as a mica.
func parts(inci string) []string {
	var list []string
	for part := range strings.SplitSeq(inci, ",") {
		if part = strings.TrimSpace(part); part != "" {
			list = append(list, part)
		}
	}
	return list
}

func saysSoap(product string) bool { return strings.Contains(strings.ToLower(product), "soap") }

package label

import (
	"slices"

	"bench/internal/recipe"
)

// rinseOff is the share of the finished product above which an allergen of
// Annex III of Regulation (EC) 1223/2009 is named in a product that is rinsed
// off, as soap is: 0.01 % (read second-hand: a trade association's page that
// quotes Regulation (EU) 2023/1545, recital).
const rinseOff = 0.0001

// older are the 24 that were to be named before Regulation (EU) 2023/1545 added
// to them (Annex III, entries 67 to 92, from memory). Great Britain keeps this
// list unless it is amended (from memory).
var older = []string{ //nolint:gochecknoglobals // A table.
	"Alpha-Isomethyl Ionone", "Amyl Cinnamal", "Amylcinnamyl Alcohol", "Anise Alcohol", "Benzyl Alcohol", "Benzyl Benzoate",
	"Benzyl Cinnamate", "Benzyl Salicylate", "Cinnamal", "Cinnamyl Alcohol", "Citral", "Citronellol", "Coumarin", "Eugenol",
	"Evernia Furfuracea Extract", "Evernia Prunastri Extract", "Farnesol", "Geraniol", "Hexyl Cinnamal", "Hydroxycitronellal",
	"Isoeugenol", "Limonene", "Linalool", "Methyl 2-Octynoate",
}

// isOlder says that an allergen is one of the 24.
func isOlder(called string) bool {
	return slices.ContainsFunc(older, func(o string) bool { return recipe.Fold(o) == recipe.Fold(called) })
}

// allergen is one that a scent or another material brings.
type allergen struct {
	name  string
	grams float64
	in    string // in is the label's name of what brings most of it.
	most  float64
}

// allergensOver gives the allergens above the threshold in so many grams of
// finished soap, summed over everything that brings them. The USA does not ask
// for them yet (from memory: the act of 2022 has the agency make a rule).
//
// What the maker lists is taken to be an allergen of the annex; naming one too
// many does no harm.
func (n naming) allergensOver(pots []pot, finished float64) []allergen {
	if n.options.Market == US || finished <= 0 {
		return nil
	}
	over := n.allergensIn(pots)
	return slices.DeleteFunc(over, func(a allergen) bool { return a.grams/finished <= rinseOff })
}

func (n naming) allergensIn(pots []pot) []allergen {
	var list []allergen
	for _, p := range pots {
		for _, r := range p.rest {
			for _, part := range n.allergens(r.name) {
				i := slices.IndexFunc(list, func(a allergen) bool { return recipe.Fold(a.name) == recipe.Fold(part.Name) })
				if i < 0 {
					i, list = len(list), append(list, allergen{name: part.Name})
				}
				grams := r.grams * part.Share.Fraction()
				list[i].grams += grams
				if grams > list[i].most {
					list[i].most, list[i].in = grams, n.called(r.name)
				}
			}
		}
	}
	return list
}

// called gives the first name under which a material stands on the label.
func (n naming) called(material string) string {
	m, _ := n.material(material)
	names := parts(m.INCI)
	switch {
	case len(names) > 0:
		return names[0]
	case m.Kind == recipe.FragranceMaterial || m.Kind == recipe.EssentialMaterial:
		return n.scent()
	}
	return material
}

// unstated names the scents whose allergens are not stated.
func (n naming) unstated(pots []pot) []string {
	var list []string
	for _, p := range pots {
		for _, r := range p.rest {
			m, _ := n.material(r.name)
			scent := m.Kind == recipe.FragranceMaterial || m.Kind == recipe.EssentialMaterial
			if scent && len(n.allergens(r.name)) == 0 && !slices.Contains(list, r.name) {
				list = append(list, r.name)
			}
		}
	}
	return list
}

// unstatedInRecipe is unstated for what the recipe asks for.
func (n naming) unstatedInRecipe() []string {
	var scents []other
	for _, l := range n.control.Recipe.Layers {
		for _, s := range l.Scents {
			scents = append(scents, other{name: s.Material})
		}
	}
	return n.unstated([]pot{{rest: scents}})
}

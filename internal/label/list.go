package label

import (
	"cmp"
	"slices"

	"bench/internal/recipe"
)

// onePercent is where the order of the list is free: ingredients under it may
// follow in any order (Regulation (EC) 1223/2009, article 19(1)(g); 21 CFR
// 701.3(f); both from memory). Descending is one of those orders, so the list
// keeps it all through.
const onePercent = 0.01

// bag collects ingredients by name.
type bag struct {
	order []string
	found map[string]*Ingredient
}

func (b *bag) put(n name, grams float64, from string, colour bool) {
	if grams <= 0 || n.words == "" {
		return
	}
	key := recipe.Fold(n.words)
	if b.found == nil {
		b.found = map[string]*Ingredient{}
	}
	g, ok := b.found[key]
	if !ok {
		g = &Ingredient{Name: n.words, Colour: colour, Verify: n.verify, From: from}
		b.found[key], b.order = g, append(b.order, key)
	}
	g.Grams += grams
}

// list gives the ingredients of all pots in the order of a label: descending
// weight at the time of making, then the colours. Loss is what the bar loses
// until it is sold, a fraction.
func (n naming) list(pots []pot, loss float64) []Ingredient {
	var b bag
	total := 0.0
	for _, p := range pots {
		n.base(&b, p)
		for _, r := range p.rest {
			n.other(&b, r)
		}
		total += p.total()
	}
	for _, a := range n.allergensOver(pots, total*(1-loss)) {
		b.put(name{words: a.name, own: true}, a.grams, "scent", false)
	}
	list := make([]Ingredient, 0, len(b.order))
	for _, key := range b.order {
		g := *b.found[key]
		if total > 0 {
			g.Share = g.Grams / total
		}
		list = append(list, g)
	}
	slices.SortStableFunc(list, func(x, y Ingredient) int {
		if x.Colour != y.Colour {
			return map[bool]int{true: 1, false: -1}[x.Colour]
		}
		return cmp.Or(cmp.Compare(y.Grams, x.Grams), cmp.Compare(x.Name, y.Name))
	})
	return list
}

// base puts in oils, alkali and water, as they went in or as they came out.
func (n naming) base(b *bag, p pot) {
	if n.options.As == AsMade {
		for _, o := range p.oils {
			asOil, _ := n.oil(o.row)
			b.put(asOil, o.grams, o.row.Name, false)
		}
		for _, a := range p.alkalis {
			b.put(name{words: capitals(a.name), own: true}, a.grams, a.name, false)
		}
		b.put(name{words: n.water(), own: true}, p.water, recipe.Water, false)
		return
	}
	water, glycerol := p.water, 0.0
	for i, s := range p.soaps() {
		row := p.oils[i].row
		asOil, asSoap := n.oil(row)
		b.put(asSoap, s.sodium, row.Name, false)
		b.put(name{potassiumName(asSoap.words), asSoap.verify, asSoap.own}, s.potash, row.Name, false)
		b.put(asOil, s.left, row.Name+", unreacted", false)
		water, glycerol = water+s.water, glycerol+s.glycerol
	}
	b.put(name{words: "Glycerin", own: true}, glycerol, "the oils", false)
	b.put(name{words: n.water(), own: true}, water, recipe.Water, false)
}

// other puts in an additive, colour, scent or topping under the maker's name
// for it. Of a mixture without shares each part counts as all of it, which can
// only bring it too far forward.
func (n naming) other(b *bag, r other) {
	m, _ := n.material(r.name)
	scent := m.Kind == recipe.FragranceMaterial || m.Kind == recipe.EssentialMaterial
	switch names := parts(m.INCI); {
	case scent && len(names) == 0:
		b.put(name{words: n.scent(), own: true}, r.grams, r.name, false)
	case len(names) == 0:
		b.put(name{words: r.name, verify: true}, r.grams, r.name, false)
	default:
		for _, words := range names {
			if isColour(words) {
				b.put(n.colour(words), r.grams, r.name, true)
			} else {
				b.put(name{words: words, own: true}, r.grams, r.name, false)
			}
		}
	}
}

func capitals(alkali string) string {
	if alkali == recipe.PotassiumHydroxide {
		return "Potassium Hydroxide"
	}
	return "Sodium Hydroxide"
}

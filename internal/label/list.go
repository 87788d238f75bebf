package label

import (
	"cmp"
	"slices"
	"strings"

	"bench/internal/calc"
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

// put counts grams with an ingredient.
func (b *bag) put(n name, grams float64, from string, colour bool) {
	if g := b.named(n, grams, from, colour); g != nil {
		g.Grams += grams
		g.Most += grams
	}
}

// within names an ingredient of which there may be so much, and which is counted with
// another: an allergen is in its scent, a colour in its mica.
func (b *bag) within(n name, most float64, other, from string, colour bool) {
	if g := b.named(n, most, from, colour); g != nil && recipe.Fold(n.words) != recipe.Fold(other) {
		g.Most += most
		g.Within = other
	}
}

func (b *bag) named(n name, grams float64, from string, colour bool) *Ingredient {
	if grams <= 0 || n.words == "" {
		return nil
	}
	key := recipe.Fold(n.words)
	if b.found == nil {
		b.found = map[string]*Ingredient{}
	}
	if b.found[key] == nil {
		b.found[key] = &Ingredient{Name: n.words, Colour: colour, Verify: n.verify, From: from}
		b.order = append(b.order, key)
	}
	if g := b.found[key]; !strings.Contains(", "+g.From+", ", ", "+from+", ") {
		g.From += ", " + from
	}
	return b.found[key]
}

// list gives the ingredients of all pots in the order of a label: descending
// weight at the time of making, then the colours. Loss is what the bar loses
// until it is sold, a fraction.
//
// An allergen above its threshold is named in the list besides the perfume that it is
// in (Regulation (EC) 1223/2009, annex III, third condition of its entries, from
// memory); its weight is the perfume's.
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
		b.within(name{words: a.name, own: true}, a.grams, a.in, "scent", false)
	}
	list := make([]Ingredient, 0, len(b.order))
	for _, key := range b.order {
		list = append(list, *b.found[key])
	}
	slices.SortStableFunc(list, func(x, y Ingredient) int {
		if x.Colour != y.Colour {
			return map[bool]int{true: 1, false: -1}[x.Colour]
		}
		return cmp.Or(cmp.Compare(y.Most, x.Most), cmp.Compare(x.Name, y.Name))
	})
	percents(list)
	return list
}

// percents fills in shares, and per cents that add up to 100.00 as they are rounded.
func percents(list []Ingredient) {
	weights, total := make([]int64, len(list)), 0.0
	for i, g := range list {
		weights[i] = int64(g.Grams * 1e6)
		total += g.Grams
	}
	if total <= 0 {
		return
	}
	const whole, hundredth = 100_00, 1
	parts, _ := calc.Portions(whole, weights, hundredth)
	for i := range list {
		list[i].Share, list[i].Percent = list[i].Most/total, int64(parts[i])
	}
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
	sodium, potash := p.free()
	b.put(name{words: capitals(recipe.SodiumHydroxide), own: true}, sodium, recipe.SodiumHydroxide+", free", false)
	b.put(name{words: capitals(recipe.PotassiumHydroxide), own: true}, potash, recipe.PotassiumHydroxide+", free", false)
	b.put(name{words: "Glycerin", own: true}, glycerol, "the oils", false)
	b.put(name{words: n.water(), own: true}, water, recipe.Water, false)
}

// other puts in an additive, colour, scent or topping under the maker's name
// for it. A mixture has no shares: its weight is counted once, with its first name,
// and for the order each part may be all of it, which can only bring it too far
// forward.
func (n naming) other(b *bag, r other) {
	m, _ := n.material(r.name)
	scent := m.Kind == recipe.FragranceMaterial || m.Kind == recipe.EssentialMaterial
	switch names := parts(m.INCI); {
	case scent && len(names) == 0:
		b.put(name{words: n.scent(), own: true}, r.grams, r.name, false)
	case len(names) == 0:
		b.put(name{words: r.name, verify: true}, r.grams, r.name, false)
	default:
		for i, words := range names {
			called := name{words: words, own: true}
			if isColour(words) {
				called = n.colour(words)
			}
			if i == 0 {
				b.put(called, r.grams, r.name, isColour(words))
			} else {
				b.within(called, r.grams, names[0], r.name, isColour(words))
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

package steps

import (
	"slices"

	"bench/internal/calc"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/work"
)

// after is what a batter gets, or leaves in the jug, because a weight was off.
type after struct {
	up       bool        // up says that everything is brought up in proportion.
	more     []work.Task // more are oils for the pot before the lye solution is in.
	early    []work.Task // early is alkali for the jug.
	cup      []work.Task // cup is water and additives for the small solution that some of it is made into.
	lateOils []work.Task // lateOils go into the batter while it is thin.
	lateLye  []work.Task // lateLye is alkali for the batter.
	lateRest []work.Task // lateRest is water and additives for the batter.
	part     float64     // part is the fraction of the lye solution that is poured; zero is all.
	portion  work.Task   // portion is the pouring of that part.
}

// allOils are the recipe's oils and those that were decided upon.
func (k pot) allOils() []work.Task {
	if len(k.more)+len(k.lateOils) == 0 {
		return k.oils
	}
	return slices.Concat(k.oils, k.more, k.lateOils)
}

// late is all that goes into the batter after the lye solution met the oils,
// each alkali behind its water.
func (k pot) late() []work.Task { return slices.Concat(k.lateOils, k.lateRest, k.lateLye) }

// allAlkali is the alkali of the jug and what was decided upon later.
func (k pot) allAlkali() []work.Task {
	if len(k.early)+len(k.lateLye) == 0 {
		return k.alkali
	}
	return slices.Concat(k.alkali, k.early, k.lateLye)
}

// solution is all that is in the lye jug.
func (k pot) solution() quantity.Mass {
	m := sum(k.alkali...) + sum(k.early...) + sum(k.water)
	for i, a := range k.recipe.Additives {
		if a.In == recipe.InLyeWater && i < len(k.additives) {
			m += sum(k.additives[i])
		}
	}
	return m
}

// inJug gives the grams of each alkali in the jug, in the order of the batter's,
// and of water.
func (k pot) inJug() (alkalis []float64, water float64) {
	alkalis = gramsOf(k.alkali)
	for _, t := range k.early {
		k.add(alkalis, t.Material, amount(t).Mass.Grams())
	}
	return alkalis, amount(k.water).Mass.Grams()
}

// add counts grams with the alkali of that name, if it is one.
func (k pot) add(alkalis []float64, material string, grams float64) {
	if i := slices.IndexFunc(k.recipe.Alkali, func(a recipe.AlkaliShare) bool { return a.Material == material }); i >= 0 {
		alkalis[i] += grams
	}
}

// poured is the fraction of the lye solution that goes into the oils.
func (k pot) poured() float64 {
	if k.part == 0 {
		return 1
	}
	return k.part
}

// besideLye is what the additives bring that are not in the jug.
func (k pot) besideLye() quantity.Mass {
	m := quantity.Mass(0)
	for i, a := range k.recipe.Additives {
		if a.In != recipe.InLyeWater && i < len(k.additives) {
			m += sum(k.additives[i])
		}
	}
	return m
}

// ofPart gives what is poured of something that is in the jug.
func (k pot) ofPart(m quantity.Mass) quantity.Mass {
	if k.part == 0 {
		return m
	}
	return quantity.FromGrams(m.Grams() * k.poured())
}

func (k pot) ofPartAmount(a Amount) Amount {
	a.Mass = k.ofPart(a.Mass)
	return a
}

// inPot gives an alkali's weight in the batter, with what its scale leaves open.
func (k pot) inPot(t work.Task) calc.Interval {
	i := interval(t)
	for _, late := range k.lateLye {
		if late.ID == t.ID {
			return i
		}
	}
	if k.part > 0 {
		i.Low, i.Nominal, i.High = i.Low*k.part, i.Nominal*k.part, i.High*k.part
	}
	return i
}

func (k pot) alkaliAmounts() []Amount {
	list := amounts(k.allAlkali())
	for i := range list[:len(k.alkali)+len(k.early)] {
		list[i] = k.ofPartAmount(list[i])
	}
	return list
}

// combinedBefore says that the lye solution had met the oils by that fact.
func (p *planner) combinedBefore(batter string, seq int) bool {
	if d, ok := p.s.Done(CombineID(batter)); ok && d.Seq < seq {
		return true
	}
	w := p.s.Weighings(partID(batter))
	return len(w) > 0 && w[0].Seq < seq
}

// met says that the lye solution is in the oils.
func (p *planner) met(batter string) bool { return p.combinedBefore(batter, len(p.s.Entries)+1) }

package steps

import (
	"fmt"
	"math"
	"strings"

	"bench/internal/calc"
	"bench/internal/quantity"
)

// Anew says what can be done with bars that are held; for a batter that has less
// superfat than it was to have, how much oil would bring it there when they are
// made anew.
func (p Plan) Anew() string {
	words := "Test again, throw them away safely, or make them anew: begin another batch and say there (c) that it is made of this one."
	if p.planner == nil {
		return words
	}
	for _, k := range p.planner.pots {
		if oil, grams, ok := p.planner.oilFor(k); ok {
			words += fmt.Sprintf(" All of %s would take %s g more %s to come to a superfat of %s: melt it with a little water and stir that in; gloves and goggles.",
				k.recipe.Name, quantity.FromGrams(grams).At(quantity.Gram), oil, k.recipe.Superfat)
		}
	}
	if !strings.Contains(words, " more ") {
		words += " " + p.sayGiven() + ": look for lye pockets, a wrong purity, or a slip that no weight shows."
	}
	return words
}

// sayGiven says what superfat the weights give, where it is not what was asked for.
func (p Plan) sayGiven() string {
	var off []string
	for _, b := range p.Batters {
		if b.AsAsked() != 0 {
			off = append(off, fmt.Sprintf("%s a superfat of %.1f %%, asked %s", b.Name, b.Superfat.Percent, b.Asked))
		}
	}
	if len(off) == 0 {
		return "The weights give the superfat that was asked for"
	}
	return "The weights give " + strings.Join(off, "; ")
}

// AsAsked is zero where the superfat is as asked, as far as weights within their
// tolerances go, and else by how much it is off, in percent.
func (b Batter) AsAsked() float64 {
	off := b.Superfat.Percent - 100*b.Asked.Fraction()
	if math.Abs(off) <= lowerBy {
		return 0
	}
	return off
}

// oilFor gives how much of a batter's largest oil takes up the alkali that it
// has over its superfat: A/(1 − s) is the alkali that all its oils must be able
// to take, and each gram of oil takes SV/1000 g of it, as KOH. Less than the scales
// leave open is none.
func (p *planner) oilFor(k pot) (oil string, grams float64, ok bool) {
	a := p.account(k)
	alkali, open := -a.Acids, 0.0 // As g of KOH.
	for _, x := range a.Alkalis {
		asKOH := x.Purity.Nominal * calc.MolarMassKOH / x.MolarMass
		alkali += x.Grams.Nominal * asKOH
		open += (x.Grams.High - x.Grams.Nominal) * asKOH
	}
	for _, o := range a.Oils {
		open += (o.Grams.High - o.Grams.Nominal) * o.SV.Nominal / 1000
	}
	over := alkali/(1-k.recipe.Superfat.Fraction()) - k.koh
	most := quantity.Ratio(0)
	for _, o := range k.recipe.Oils {
		if use, known := p.c.Oil(o.Oil); known && use.SV.Nominal > 0 && o.Share > most {
			most, oil, grams = o.Share, use.Name, over*1000/use.SV.Nominal
		}
	}
	return oil, grams, over > open/(1-k.recipe.Superfat.Fraction())
}

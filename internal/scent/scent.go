// Package scent holds the rules for fragrance and essential oils: where one is
// stirred in and why, when it is weighed out, how much of it there is to be and
// how far off it may be.
//
// The rule: everything follows from what the recipe asks, from what the scent
// does to raw batter, and from its certificate's limit.
package scent

import (
	"fmt"
	"math"
	"slices"

	"bench/internal/calc"
	"bench/internal/quantity"
	"bench/internal/recipe"
)

// PlaceOf derives where a layer's scents are stirred in, and says why. The
// recipe may know better. Otherwise a scent that spoils the batter (rices,
// seizes, separates) is kept out of the pot; one that accelerates goes into the
// pot when thickening helps, and into each portion when the layer must stay
// thin; one that behaves goes into the pot, which is the least work.
//
// Common practice, no source.
func PlaceOf(c recipe.Control, l recipe.Layer) (recipe.Place, string) {
	if len(l.Scents) == 0 {
		return recipe.InPot, ""
	}
	for _, s := range l.Scents {
		if s.Where != recipe.PlaceDerived {
			return s.Where, "the recipe says so"
		}
	}
	spoilt := "one portion at a time, poured at once, so that never the whole layer is at risk"
	thick, calm := "split first, then scent a portion and pour it at once", "one stirring for the whole layer, then split"
	if c.Loaves == 1 {
		spoilt, thick, calm = "last of all, and poured at once", "scent it last and pour it at once", "one stirring for the whole layer"
	}
	thin := l.Trace == recipe.Emulsion || l.Trace == recipe.Light
	for _, s := range l.Scents {
		m, _ := c.Material(s.Material)
		for _, spoils := range []recipe.Behaviour{recipe.Seizes, recipe.Rices, recipe.Separates} {
			if slices.Contains(m.Does, spoils) {
				return recipe.InPortions, fmt.Sprintf("%s %s: %s", s.Material, spoils, spoilt)
			}
		}
	}
	for _, s := range l.Scents {
		m, _ := c.Material(s.Material)
		if !slices.Contains(m.Does, recipe.Accelerates) {
			continue
		}
		switch {
		case thin:
			return recipe.InPortions, fmt.Sprintf("%s thickens the batter and this layer must stay thin: %s", s.Material, thick)
		case len(l.Embeds) > 0:
			return recipe.InPot, fmt.Sprintf("%s thickens the batter, which helps here: the layer must carry embeds", s.Material)
		default:
			return recipe.InPot, fmt.Sprintf("%s thickens the batter, and this layer is wanted at %s trace", s.Material, l.Trace)
		}
	}
	return recipe.InPot, "the scent behaves: " + calm
}

// Hurries says that a scent is weighed out before the lye solution meets the
// oils, because there is no time for it afterwards.
func Hurries(c recipe.Control, l recipe.Layer) bool {
	for _, s := range l.Scents {
		m, _ := c.Material(s.Material)
		for _, d := range m.Does {
			if d == recipe.Accelerates || d == recipe.Seizes || d == recipe.Rices || d == recipe.Separates {
				return true
			}
		}
	}
	return false
}

// Thickens says that a scent takes the batter to a thicker trace by itself.
func Thickens(c recipe.Control, l recipe.Layer) bool {
	return slices.ContainsFunc(l.Scents, func(s recipe.Scent) bool {
		m, _ := c.Material(s.Material)
		return slices.Contains(m.Does, recipe.Accelerates)
	})
}

// Grams gives a scent's weight for so much oil and so much batter without
// scents.
func Grams(l recipe.Layer, s recipe.Scent, oils, bare float64) float64 {
	if s.Of != recipe.OfBatter {
		return s.Rate.Fraction() * oils
	}
	ofBatter, ofOils := 0.0, 0.0
	for _, other := range l.Scents {
		if other.Of == recipe.OfBatter {
			ofBatter += other.Rate.Fraction()
		} else {
			ofOils += other.Rate.Fraction() * oils
		}
	}
	return s.Rate.Fraction() * (bare + ofOils) / (1 - ofBatter)
}

// Amounts gives the grams of each of a layer's scents for so much oil and so much
// batter without scents: what the recipe asks, and never more than the limits allow
// in that batter. Most is how far each of them may go, with the others beside it: of a
// blend by the sum of rate/limit (see Over), which may not pass one; +Inf without a limit.
//
// Scents x with limits L reach that sum at k where
// Σ k·x/L = (1−loss)·(batter + Σ k·x), those without a limit being part of the batter.
func Amounts(c recipe.Control, l recipe.Layer, oils, bare float64) (grams, most []float64) {
	grams, most = make([]float64, len(l.Scents)), make([]float64, len(l.Scents))
	limits, used, limited, rest := make([]float64, len(l.Scents)), 0.0, 0.0, bare
	for i, s := range l.Scents {
		m, _ := c.Material(s.Material)
		grams[i], limits[i], most[i] = Grams(l, s, oils, bare), m.Limit.Fraction(), math.Inf(1)
		if limits[i] > 0 {
			used, limited = used+grams[i]/limits[i], limited+grams[i]
		} else {
			rest += grams[i]
		}
	}
	over := used - limited*(1-recipe.CureLoss)
	if over <= 0 {
		return grams, most
	}
	for i := range grams {
		if limits[i] > 0 {
			most[i] = math.Floor(1000*grams[i]*rest*(1-recipe.CureLoss)/over) / 1000 // Weights are whole milligrams.
			grams[i] = min(grams[i], most[i])
		}
	}
	return grams, most
}

// Tolerance is what keeps a scent under its limit, and never more than
// one twentieth of it, so that a slip is noticed without a limit too.
func Tolerance(c recipe.Control, s recipe.Scent, grams, bare float64) float64 {
	within := grams / 20
	m, _ := c.Material(s.Material)
	if m.Limit > 0 {
		most := calc.MostScent(bare, m.Limit.Fraction(), recipe.CureLoss)
		within = min(within, max(quantity.Milligram.Grams(), most-grams)) // None at all would mean any.
	}
	return within
}

// Excess is a scent that a bar holds more of than its limit allows. Shares are in
// percent of the cured bar, where the water that has left makes them largest.
type Excess struct {
	Material string
	Percent  float64
	Limit    quantity.Ratio // Limit is zero where several scents together are over theirs.
}

// Over finds the first excess among the scents of a batter. Masses are in the
// order of the layer's list, as weighed; batter includes them; reads is what
// their scale reads to, of which half is nobody's fault.
func Over(c recipe.Control, l recipe.Layer, masses []quantity.Mass, batter, reads quantity.Mass) (Excess, bool) {
	used := 0.0
	for i, s := range l.Scents {
		m, _ := c.Material(s.Material)
		if m.Limit <= 0 {
			continue
		}
		share := calc.ScentShareCured((masses[i] - reads/2).Grams(), batter.Grams(), recipe.CureLoss)
		if share > m.Limit.Fraction() {
			return Excess{s.Material, 100 * calc.ScentShareCured(masses[i].Grams(), batter.Grams(), recipe.CureLoss), m.Limit}, true
		}
		used += share / m.Limit.Fraction()
	}
	return Excess{Percent: 100 * used}, used > 1
}

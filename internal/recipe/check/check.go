// Package check holds a recipe and a workshop to their rules, and freezes what
// passes as the control recipe of one batch.
//
// The rule: every problem is found at once, says what to do, and carries the path
// of its field.
package check

import (
	"fmt"
	"slices"

	"bench/internal/quantity"
	"bench/internal/recipe"
)

// Recipe gives everything that is wrong with a recipe in a workshop, at the
// recipe's own number of loaves, in the order of the checks. What was left out
// of the recipe is taken at its default first.
func Recipe(r recipe.Recipe, w recipe.Workshop) []recipe.Problem {
	c := newChecker(r, w)
	c.run(c.r.Loaves)
	return c.problems
}

// checker works through a copy of a recipe. Names become those of the workshop
// and the oils table, and defaults are filled in, as the checks go; once no
// error is left the copy is what a control recipe holds.
type checker struct {
	r        recipe.Recipe
	w        recipe.Workshop
	mould    recipe.Mould // mould has no height while it is unknown.
	oils     []recipe.OilUse
	used     []recipe.Material
	onHand   quantity.Mass // onHand is the weight of oils that the loaves are to be made of, or zero.
	problems []recipe.Problem
}

func newChecker(r recipe.Recipe, w recipe.Workshop) *checker {
	r.Batters = slices.Clone(r.Batters)
	for i := range r.Batters {
		b := &r.Batters[i]
		b.Oils, b.Alkali, b.Additives = slices.Clone(b.Oils), slices.Clone(b.Alkali), slices.Clone(b.Additives)
	}
	r.Layers = slices.Clone(r.Layers)
	for i := range r.Layers {
		l := &r.Layers[i]
		l.Colours, l.Scents, l.Embeds = slices.Clone(l.Colours), slices.Clone(l.Scents), slices.Clone(l.Embeds)
	}
	r.Top.Toppings = slices.Clone(r.Top.Toppings)
	if r.Loaves == 0 {
		r.Loaves = recipe.DefaultLoaves
	}
	if w.LeftInVessel == 0 {
		w.LeftInVessel = recipe.DefaultLeftInVessel
	}
	return &checker{r: r, w: w}
}

// run makes the checks. Those of amounts come last and only if nothing else is
// wrong, because they would rest on values that are.
func (c *checker) run(loaves int) {
	c.findMould(loaves)
	c.loafShares()
	c.batters()
	c.layers()
	c.stickOutlines()
	c.top()
	if c.failed() {
		return
	}
	c.scents()
	c.weights(loaves)
}

func (c *checker) failed() bool {
	return slices.ContainsFunc(c.problems, func(p recipe.Problem) bool { return !p.Warning })
}

func (c *checker) errorf(p recipe.Path, format string, args ...any) {
	c.problems = append(c.problems, recipe.Problem{Path: p, Text: fmt.Sprintf(format, args...)})
}

func (c *checker) warnf(p recipe.Path, format string, args ...any) {
	c.problems = append(c.problems, recipe.Problem{Path: p, Text: fmt.Sprintf(format, args...), Warning: true})
}

// findMould finds the recipe's mould, by default the workshop's first.
func (c *checker) findMould(loaves int) {
	if len(c.w.Moulds) == 0 {
		c.errorf("mould", "the workshop has no moulds: list them in the workshop file")
		return
	}
	if c.r.Mould == "" {
		c.mould = c.w.Moulds[0].Inside()
	}
	var known []string
	for _, m := range c.w.Moulds {
		known = append(known, m.Name)
		if recipe.Fold(m.Name) == recipe.Fold(c.r.Mould) {
			c.mould = m.Inside()
		}
	}
	if c.mould.Height == 0 {
		c.errorf("mould", "no mould of the workshop is called %q%s", c.r.Mould, recipe.DidYouMean(c.r.Mould, known))
		return
	}
	c.r.Mould = c.mould.Name
	switch have := c.mould.Count; {
	case loaves < 1:
		c.errorf("loaves", "a batch of %d loaves is not possible: make 1 or more", loaves)
	case have > 0 && loaves > have:
		c.errorf("loaves", "%d loaves need %d moulds, and the workshop has %d called %q: make %d, or count the moulds again in the workshop file",
			loaves, loaves, have, c.mould.Name, have)
	case have == 0 && loaves > 1:
		c.warnf("loaves", "%d loaves need %d moulds called %q: the workshop file does not say how many there are", loaves, loaves, c.mould.Name)
	}
}

// loafShares checks that every loaf has its share.
func (c *checker) loafShares() {
	if n := len(c.r.LoafShares); n > 0 && n != c.r.Loaves {
		c.errorf("loaf shares", "there are %d shares for %d loaves: state one for each", n, c.r.Loaves)
	}
	for i, w := range c.r.LoafShares {
		if w < 1 {
			c.errorf(recipe.Path("loaf shares").Item(i), "a share is a whole number of 1 or more")
		}
	}
}

// whole checks that shares add up to exactly 100 %.
func (c *checker) whole(p recipe.Path, what string, shares []quantity.Ratio) {
	var sum quantity.Ratio
	for _, s := range shares {
		sum += s
	}
	switch {
	case sum < quantity.Whole:
		c.errorf(p, "the shares of the %s add up to %s: %s is missing", what, sum, quantity.Whole-sum)
	case sum > quantity.Whole:
		c.errorf(p, "the shares of the %s add up to %s: that is %s too much", what, sum, sum-quantity.Whole)
	}
}

// distinct reports every name that has been used before in its list.
func (c *checker) distinct(what string, paths []recipe.Path, names []string) {
	seen := make(map[string]bool)
	for i, name := range names {
		switch f := recipe.Fold(name); {
		case f == "":
			c.errorf(paths[i], "a %s needs a name", what)
		case seen[f]:
			c.errorf(paths[i], "there are two %ss called %q: give each its own name", what, name)
		default:
			seen[f] = true
		}
	}
}

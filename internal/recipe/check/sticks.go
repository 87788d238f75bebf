package check

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"bench/internal/cut"
	"bench/internal/quantity"
	"bench/internal/recipe"
)

// workshopSticks checks the sticks on hand and what they are cut with.
func (c *checker) workshopSticks() {
	c.cutting("cutting", c.w.Cutting)
	least := c.w.Cutting.Order(10*quantity.MaxLength, 1, 1).Shortest()
	for i, s := range c.w.Sticks {
		p := recipe.Path("sticks").Item(i)
		if s.Length > 0 && s.Length < least {
			c.errorf(p.Field("length"), "a stick of %s is shorter than the shortest piece, %s: leave it out, or state a smaller \"minimum piece\" under \"cutting\"", s.Length, least)
		}
	}
	if x := c.w.Extruder; x.Stays > 0 && x.Capacity > 0 && x.Stays >= x.Capacity {
		c.errorf("extruder.stays", "what stays in the extruder, %s, is all that it holds", x.Stays)
	}
}

// cutting checks how loaves are cut, in a workshop or in a recipe.
func (c *checker) cutting(p recipe.Path, k recipe.Cutting) {
	if k.Tolerance != nil && k.Bar != nil && 2**k.Tolerance >= *k.Bar {
		c.errorf(p.Field("tolerance"), "a tolerance of %s is half a bar or more: a join could lie anywhere", *k.Tolerance)
	}
}

// stickOutlines checks that embeds cut from one stick have one outline.
func (c *checker) stickOutlines() {
	c.cutting("cutting", c.r.Cutting)
	first := map[string]recipe.Embed{}
	for i, l := range c.r.Layers {
		for j, e := range l.Embeds {
			f, seen := first[recipe.Fold(e.StickName())]
			if !seen {
				first[recipe.Fold(e.StickName())] = e
				continue
			}
			if f.Shape != e.Shape || f.Width != e.Width || f.Height != e.Height || f.Dough != e.Dough || !slices.Equal(f.Corners, e.Corners) {
				c.errorf(recipe.Path("layers").Item(i).Field("embeds").Item(j), "%q and %q are pieces of one stick, %q, yet differ in shape or dough: give one of them another \"stick\"",
					f.Name, e.Name, e.StickName())
			}
		}
	}
}

// planSticks plans each design of stick that is on hand, or that the extruder
// makes, and says what cannot be as it should.
func (c *checker) planSticks(control *recipe.Control) {
	control.Cutting, control.Extruder = c.r.Cutting.Over(c.w.Cutting), c.w.Extruder
	for _, name := range stickNames(c.r) {
		plan := recipe.StickPlan{Stick: name, Embeds: rowsOf(c.r, name), Stock: c.w.StockOf(name)}
		order := control.Cutting.Order(control.Mould.Along(), control.Loaves, len(plan.Embeds))
		order.Sticks = c.w.SticksOf(name)
		if c.w.Extruder.Stick > 0 {
			order.Sticks = append(order.Sticks, cut.Stick{Length: c.w.Extruder.Stick, Fresh: true})
		}
		if len(order.Sticks) == 0 {
			continue
		}
		var err error
		if plan.Plan, err = cut.Solve(order); err != nil {
			var invalid *cut.InvalidError
			if errors.As(err, &invalid) {
				c.errorf("cutting", "the %s stick cannot be planned: %s", name, invalid.Reason)
			}
			continue
		}
		for _, words := range words(plan) {
			c.warnf(embedPath(c.r, plan.Embeds[0]), "%s", words)
		}
		control.Sticks = append(control.Sticks, plan)
	}
}

// words say what a maker should know before the day.
func words(s recipe.StickPlan) []string {
	var words []string
	for _, stock := range s.Stock {
		if doubt := stock.Doubt(s.Stick); doubt != "" {
			words = append(words, doubt)
		}
	}
	if s.Plan.Unmade > 0 {
		words = append(words, fmt.Sprintf("the %s sticks on hand are not enough: %s without, as no two lots go into one loaf", s.Stick, quantity.Count(s.Plan.Unmade, "loaf is", "loaves are")))
	}
	if s.Plan.Fresh > 0 {
		words = append(words, fmt.Sprintf("%s still to be made for %s", quantity.Count(s.Plan.Fresh, "stick is", "sticks are"), s.Stick))
	}
	if len(s.Plan.Shows) > 0 {
		var bars []string
		for _, b := range s.Plan.Shows {
			bars = append(bars, fmt.Sprintf("loaf %d bar %d", b.Loaf, b.Bar))
		}
		words = append(words, fmt.Sprintf("not every join of %s can be hidden: one shows in %s", s.Stick, strings.Join(bars, ", ")))
	}
	return words
}

// stickNames lists the designs that a recipe's embeds are pieces of.
func stickNames(r recipe.Recipe) []string {
	var names []string
	for _, l := range r.Layers {
		for _, e := range l.Embeds {
			if !slices.ContainsFunc(names, func(n string) bool { return recipe.Fold(n) == recipe.Fold(e.StickName()) }) {
				names = append(names, e.StickName())
			}
		}
	}
	return names
}

// rowsOf lists the embeds that are pieces of one design, floor first.
func rowsOf(r recipe.Recipe, stick string) []recipe.StickEmbed {
	var rows []recipe.StickEmbed
	for _, l := range r.Layers {
		for _, e := range l.Embeds {
			if recipe.Fold(e.StickName()) == recipe.Fold(stick) {
				rows = append(rows, recipe.StickEmbed{Layer: l.Name, Embed: e.Name})
			}
		}
	}
	return rows
}

func embedPath(r recipe.Recipe, of recipe.StickEmbed) recipe.Path {
	for i, l := range r.Layers {
		for j, e := range l.Embeds {
			if l.Name == of.Layer && e.Name == of.Embed {
				return recipe.Path("layers").Item(i).Field("embeds").Item(j)
			}
		}
	}
	return "layers"
}

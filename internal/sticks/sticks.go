// Package sticks says what the cut of a batch's loaves and sticks comes to: the
// bars of a loaf and what they weigh, and the soap dough for sticks that are
// still to be made.
//
// The rule: where to cut is frozen in the control recipe and only read here. All
// weights are of fresh soap.
package sticks

import (
	"math"

	"bench/internal/cut"
	"bench/internal/form"
	"bench/internal/quantity"
	"bench/internal/recipe"
)

// Work is everything that bench says of bars and sticks before the batch.
type Work struct {
	Recipe string
	Loaves int
	Loaf   cut.Loaf
	Knife  quantity.Length
	Wanted quantity.Length // Wanted is how long a piece of stick is to be at the least.
	Bars   []Bar           // Bars are those of one loaf, from the end at the stop; none are cut from cavities.
	Embeds int             // Embeds is how many a loaf holds.
	Plans  []recipe.StickPlan
	Dough  []Dough // Dough is for the sticks still to be made.
}

// Bar is one bar of a full loaf.
type Bar struct {
	N        int
	From, To quantity.Length // From and To are along the loaf, from the end at the stop.
	Fresh    quantity.Mass
}

// Of works a control recipe out.
func Of(c recipe.Control) Work {
	order := c.Cutting.Order(c.Mould.Along(), 1, 1)
	w := Work{Recipe: c.Recipe.Name, Loaves: c.Loaves, Loaf: order.Loaf, Knife: order.Knife, Wanted: order.Shortest(), Plans: c.Sticks}
	if c.Mould.Lies() {
		w.Bars = bars(c, order.Loaf)
	}
	for _, l := range c.Recipe.Layers {
		w.Embeds += len(l.Embeds)
	}
	w.Dough = dough(c)
	return w
}

// Spread gives the lightest and the heaviest bar.
func (w Work) Spread() (least, most quantity.Mass) {
	for i, b := range w.Bars {
		if i == 0 || b.Fresh < least {
			least = b.Fresh
		}
		most = max(most, b.Fresh)
	}
	return least, most
}

// density is what an embed's dough weighs, in g/mL.
func density(c recipe.Control) float64 {
	if c.Extruder.Density > 0 {
		return c.Extruder.Density
	}
	return recipe.DefaultDoughDensity
}

// bars weighs each bar by what lies between its two cuts: layers and embeds by
// their volume there and their density. In a mould whose ends lean, the bars at
// the ends are lower at the floor's side.
func bars(c recipe.Control, loaf cut.Loaf) []Bar {
	section := c.Mould.Section()
	list := make([]Bar, loaf.Bars())
	for i := range list {
		from, to := loaf.Span(i + 1)
		list[i] = Bar{N: i + 1, From: from, To: to}
	}
	grams := make([]float64, len(list))
	for _, slice := range slices(c, section) {
		long := section.Long + section.Lean*slice.height
		wall := (loaf.Length.Millimetres() - long) / 2 // wall is how far in the end stands at that height.
		for i, b := range list {
			thick := math.Min(b.To.Millimetres(), wall+long) - math.Max(b.From.Millimetres(), wall)
			grams[i] += slice.gramsPerMM * math.Max(0, thick)
		}
	}
	for i := range list {
		list[i].Fresh = quantity.FromGrams(grams[i])
	}
	return list
}

// slice is what a mm of the loaf's length holds about some height.
type slice struct{ height, gramsPerMM float64 }

// sliceCount is how finely leaning ends are followed; straight ones need no
// slices at all.
const sliceCount = 100

// slices cuts the section into level strips, and where the ends stand upright
// takes it whole.
func slices(c recipe.Control, section form.Section) []slice {
	if section.Lean == 0 {
		return []slice{{0, weightBetween(c, section, math.Inf(-1), math.Inf(1))}}
	}
	list := make([]slice, sliceCount)
	for i := range list {
		low := section.Height * float64(i) / sliceCount
		high := section.Height * float64(i+1) / sliceCount
		list[i] = slice{(low + high) / 2, weightBetween(c, section, low, high)}
	}
	return list
}

// weightBetween gives the grams in a mm of length between two heights.
func weightBetween(c recipe.Control, section form.Section, low, high float64) float64 {
	grams := 0.0
	inside := section.Outline()
	var embeds []form.Embed
	for _, l := range c.Recipe.Layers {
		embeds = append(embeds, l.Fill(c.Mould).Embeds...)
	}
	for _, e := range embeds {
		grams += form.AreaBetween(e, low, high) * density(c) / 1000
	}
	base := form.Level(0)
	for i, l := range c.Recipe.Layers {
		surface := l.Line(c.Mould)
		from, to := between(base, low, high), between(surface, low, high)
		area := inside.Under(to).Area - inside.Under(from).Area
		for _, e := range embeds {
			area -= e.Under(to).Area - e.Under(from).Area
		}
		grams += math.Max(0, area) * c.Mixture(i).GramsPerML / 1000
		base = surface
	}
	return grams
}

// between keeps a surface within two heights. A sloped one is not kept: strips
// are for leaning ends, and there its middle stands for it.
func between(l form.Line, low, high float64) form.Line {
	if math.IsInf(high, 1) {
		return l
	}
	return form.Level(math.Max(low, math.Min(l.At, high)))
}

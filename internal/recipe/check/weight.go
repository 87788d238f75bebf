package check

import (
	"bench/internal/calc"
	"bench/internal/quantity"
	"bench/internal/recipe"
)

// weights checks oil weights that the recipe fixes against the moulds, or lets
// the height of the loaves follow from them.
func (c *checker) weights(loaves int) {
	if c.onHand > 0 {
		c.follow("loaves", c.onHand, loaves)
		c.shareOut(loaves)
		return
	}
	for i := range c.r.Batters {
		b := &c.r.Batters[i]
		if b.OilWeight == 0 {
			continue
		}
		p := recipe.Path("batters").Item(i).Field("oil weight")
		if b.OilWeight < 0 {
			c.errorf(p, "the oil weight must be above 0 g")
			continue
		}
		b.OilWeight = quantity.FromGrams(b.OilWeight.Grams() * float64(loaves) / float64(c.r.Loaves))
		if c.follows() {
			c.follow(p, b.OilWeight, loaves)
			continue
		}
		c.enough(p, *b, loaves)
	}
}

// enough checks that a batter's oils fill its layers, and says what is left.
func (c *checker) enough(p recipe.Path, b recipe.Batter, loaves int) {
	const slack = 1.02 // Less than two per cent over is not worth a word.
	need := c.oilsFor(b, loaves)
	switch have := b.OilWeight; {
	case have < need:
		c.errorf(p, "%s of oils is too little for the layers of %q in %d loaves: give %s, or lower the surfaces", have, b.Name, loaves, need.RoundTo(quantity.Gram)+quantity.Gram)
	case c.overfull(b, loaves):
		c.errorf(p, "%s of oils is more than %d moulds %q hold: give %s or less", have, loaves, c.mould.Name, need.FloorTo(quantity.Gram))
	case have.Grams() > need.Grams()*slack:
		c.warnf(p, "%s of oils is more than the layers of %q take: about %s of them are left over as batter, so have a small mould ready", have, b.Name, (have - need).RoundTo(quantity.Gram))
	}
}

// overfull tells whether a batter alone would overflow what its loaves' moulds
// still hold besides the other batters' layers.
func (c *checker) overfull(b recipe.Batter, loaves int) bool {
	section := c.mould.Section()
	filled := section.Outline().Under(c.r.Layers[len(c.r.Layers)-1].Line(c.mould))
	room := (section.Capacity() - section.Volume(filled)) / 1000 * float64(loaves)
	at := c.r.LayersOf(b.Name)
	m := c.control(loaves).Mixture(at[len(at)-1])
	extra := (b.OilWeight - c.oilsFor(b, loaves)).Grams() * m.Total / m.GramsPerML
	return extra > room
}

// oilsFor gives the oils that a batter's layers take.
func (c *checker) oilsFor(b recipe.Batter, loaves int) quantity.Mass {
	control := c.control(loaves)
	need := control.OilsNeeded(control.Mixtures())
	grams := 0.0
	for _, at := range c.r.LayersOf(b.Name) {
		grams += need[at]
	}
	return quantity.FromGrams(grams)
}

// follows tells whether the height of the loaf follows from an oil weight: one
// that the maker has at hand, or that of a recipe of one batter that states
// shares and no height.
func (c *checker) follows() bool {
	if len(c.r.Batters) == 0 || len(c.r.Layers) == 0 {
		return false
	}
	return c.onHand > 0 || len(c.r.Batters) == 1 && c.r.Batters[0].OilWeight > 0 && c.r.Layers[0].Share > 0 && c.r.Height == 0
}

// shareOut gives each batter its part of the oils at hand, by what its layers
// take; together they are all of it.
func (c *checker) shareOut(loaves int) {
	var need []int64
	for _, b := range c.r.Batters {
		need = append(need, int64(c.oilsFor(b, loaves)))
	}
	parts, _ := calc.Portions(c.onHand, need, quantity.Milligram)
	for i := range c.r.Batters {
		c.r.Batters[i].OilWeight = parts[i]
	}
}

// follow finds the height to which so much oil fills the loaves, to a tenth of
// a millimetre below. All layers become lower or higher in proportion.
func (c *checker) follow(p recipe.Path, oils quantity.Mass, loaves int) {
	const step = quantity.Millimetre / 10
	byShare := c.r.Layers[0].Share > 0
	drawn := make([]quantity.Length, len(c.r.Layers))
	for i, l := range c.r.Layers {
		drawn[i] = l.Surface
	}
	need := func(height quantity.Length) (sum quantity.Mass) {
		if byShare {
			recipe.SetSurfaces(c.r.Layers, c.mould, height)
		} else {
			for i := range c.r.Layers {
				c.r.Layers[i].Surface = drawn[i] * height / drawn[len(drawn)-1]
			}
		}
		for _, b := range c.r.Batters {
			sum += c.oilsFor(b, loaves)
		}
		return sum
	}
	if most := need(c.mould.Height); oils > most {
		c.errorf(p, "%s of oils is more than %d moulds %q hold: give %s or less", oils, loaves, c.mould.Name, most.FloorTo(quantity.Gram))
		return
	}
	low, high := quantity.Length(0), c.mould.Height/step
	for high-low > 1 {
		middle := (low + high) / 2
		if need(middle*step) <= oils {
			low = middle
		} else {
			high = middle
		}
	}
	if low == 0 {
		c.errorf(p, "%s of oils is too little to pour %d loaves", oils, loaves)
		return
	}
	need(low * step)
	if byShare {
		c.r.Height = low * step
	}
	c.rising(byShare)
	c.embeds()
}

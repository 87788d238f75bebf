package recipe

import "bench/internal/quantity"

// weights checks oil weights that the recipe fixes against the moulds. A recipe
// of one batter that states shares and no height lets its loaves become as high
// as the oils make them.
func (c *checker) weights(loaves int) {
	for i := range c.r.Batters {
		b := &c.r.Batters[i]
		if b.OilWeight == 0 {
			continue
		}
		p := Path("batters").Item(i).Field("oil weight")
		if b.OilWeight < 0 {
			c.errorf(p, "the oil weight must be above 0 g")
			continue
		}
		b.OilWeight = quantity.FromGrams(b.OilWeight.Grams() * float64(loaves) / float64(c.r.Loaves))
		if len(c.r.Batters) == 1 && c.r.Layers[0].Share > 0 && c.r.Height == 0 {
			c.follow(p, *b, loaves)
			continue
		}
		c.enough(p, *b, loaves)
	}
}

// enough checks that a batter's oils fill its layers, and says what is left.
func (c *checker) enough(p Path, b Batter, loaves int) {
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
func (c *checker) overfull(b Batter, loaves int) bool {
	spare := c.mould.Height - c.r.Layers[len(c.r.Layers)-1].Surface
	room := spare.Millimetres() * c.mould.Width.Millimetres() * c.mould.Length.Millimetres() / 1000 * float64(loaves)
	at := c.r.LayersOf(b.Name)
	m := c.control(loaves).Mixture(at[len(at)-1])
	extra := (b.OilWeight - c.oilsFor(b, loaves)).Grams() * m.Total / m.GramsPerML
	return extra > room
}

// oilsFor gives the oils that a batter's layers take.
func (c *checker) oilsFor(b Batter, loaves int) quantity.Mass {
	need := c.control(loaves).OilsNeeded()
	grams := 0.0
	for _, at := range c.r.LayersOf(b.Name) {
		grams += need[at]
	}
	return quantity.FromGrams(grams)
}

// follow finds the height to which a fixed oil weight fills the loaves, to a
// tenth of a millimetre below.
func (c *checker) follow(p Path, b Batter, loaves int) {
	const step = quantity.Millimetre / 10
	surfaces(c.r.Layers, c.mould.Height)
	if need := c.oilsFor(b, loaves); b.OilWeight > need {
		c.errorf(p, "%s of oils is more than %d moulds %q hold: give %s or less", b.OilWeight, loaves, c.mould.Name, need.FloorTo(quantity.Gram))
		return
	}
	low, high := quantity.Length(0), c.mould.Height/step
	for high-low > 1 {
		middle := (low + high) / 2
		surfaces(c.r.Layers, middle*step)
		if c.oilsFor(b, loaves) <= b.OilWeight {
			low = middle
		} else {
			high = middle
		}
	}
	if low == 0 {
		c.errorf(p, "%s of oils is too little to pour %d loaves", b.OilWeight, loaves)
		return
	}
	c.r.Height = low * step
	surfaces(c.r.Layers, c.r.Height)
	c.rising(true)
	c.embeds()
}

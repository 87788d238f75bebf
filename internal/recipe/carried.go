package recipe

import "bench/internal/quantity"

// Carried is an oil that an additive brings along, such as the fat of a milk.
type Carried struct {
	Additive int // Additive is its place in the batter's list.
	Oil      OilUse
	Share    float64 // Share is its part of the additive.
	Grams    float64 // Grams are what it brings.
}

// AdditiveGrams gives what a batter asks of each additive, for so many grams of
// oils.
func (b Batter) AdditiveGrams(oils float64) []float64 {
	grams := make([]float64, len(b.Additives))
	for i, a := range b.Additives {
		grams[i] = a.Rate.Fraction() * oils
	}
	return grams
}

// Acids gives the alkali that so many grams of each additive use up, in grams of
// KOH.
func (c Control) Acids(b Batter, additives []float64) float64 {
	acids := 0.0
	for i, a := range b.Additives {
		m, _ := c.Material(a.Material)
		acids += additives[i] * m.Acid.Fraction()
	}
	return acids
}

// Carried lists the oils that so many grams of each of a batter's additives
// bring. They take alkali like the others.
func (c Control) Carried(b Batter, additives []float64) []Carried {
	var list []Carried
	for i, a := range b.Additives {
		m, _ := c.Material(a.Material)
		use, ok := c.oilIn(m)
		if m.OilShare == 0 || !ok {
			continue
		}
		share := m.OilShare.Fraction()
		list = append(list, Carried{i, use, share, additives[i] * share})
	}
	return list
}

// carried keeps the values of the oil that an additive brings for the batch.
func (c *checker) carried(p Path, name string) {
	if m, ok := c.w.material(name); ok && m.OilShare > 0 && m.Kind == AdditiveMaterial {
		c.oil(p, m.Oil)
	}
}

// workshopCarried checks what an additive says of the oil in it.
func (c *checker) workshopCarried(p Path, m Material) {
	switch {
	case m.Kind != AdditiveMaterial || m.Oil == "" && m.OilShare == 0:
		return
	case m.OilShare == 0:
		c.errorf(p.Field("oil"), "say how much of %q is oil, as in \"oil share: 4 %%\"", m.Name)
	case m.OilShare+m.Water > quantity.Whole:
		c.errorf(p.Field("oil share"), "water and oil of %q are more than 100 %% together", m.Name)
	}
	c.workshopOil(p.Field("oil"), m)
}

// oilIn gives the oil that an additive holds, by its key in the table or its name
// in the workshop.
func (c Control) oilIn(m Material) (OilUse, bool) {
	if use, ok := c.Oil(m.Oil); ok {
		return use, true
	}
	return c.Oil(Fold(m.Oil))
}

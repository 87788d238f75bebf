package recipe

// Carried is an oil that something else brings along, such as the fat of a milk or
// what a mica was wetted in.
type Carried struct {
	Oil   OilUse
	Share float64 // Share is its part of what brings it.
	Grams float64 // Grams are what it brings.
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

// CarriedBy gives the oil in so many grams of an additive or a colourant. It takes
// alkali like the others.
func (c Control) CarriedBy(material string, grams float64) (Carried, bool) {
	m, _ := c.Material(material)
	if m.OilShare == 0 || !m.HoldsOil() {
		return Carried{}, false
	}
	use, ok := c.Oil(m.Oil)
	if !ok {
		use, ok = c.Oil(Fold(m.Oil)) // One of the workshop goes by its name.
	}
	share := m.OilShare.Fraction()
	return Carried{use, share, grams * share}, ok
}

// HoldsOil says that a material is of a kind that may hold oil and be none.
func (m Material) HoldsOil() bool { return m.Kind == AdditiveMaterial || m.Kind == ColourMaterial }

// carriedKOH gives the alkali for the oils that additives and colours bring, in
// grams of KOH for each gram of the batter's oils. Of a pot that feeds several
// layers it takes the mean of their colours: how the layers share the pot follows
// from this, and makes next to no difference.
func (c Control) carriedKOH(b Batter, additives []float64) float64 {
	koh := 0.0
	add := func(material string, grams float64) {
		if o, ok := c.CarriedBy(material, grams); ok {
			koh += o.Grams * o.Oil.SV.Nominal / 1000
		}
	}
	for i, a := range b.Additives {
		add(a.Material, additives[i])
	}
	layers := c.Recipe.LayersOf(b.Name)
	for _, at := range layers {
		for _, k := range c.Recipe.Layers[at].Colours {
			add(k.Material, k.Rate.Fraction()/float64(len(layers)))
		}
	}
	return koh
}

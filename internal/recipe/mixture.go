package recipe

import "bench/internal/calc"

// Densities in g/mL of what the oils table does not hold: common practice and
// memory, no source. They only decide how much batter fills a mould.
const (
	scentDensity    = 0.95 // Fragrance and essential oils, 0.9 to 1.05.
	additiveDensity = 1.1  // Mostly watery solutions.
	colourDensity   = 2.8  // Mica; muscovite 2.77 to 2.88 (CRC Handbook, from memory).
)

// Mixture is a layer's batter, in grams for each gram of its oils.
type Mixture struct {
	Alkali     float64 // Alkali is as weighed, impurities included.
	Water      float64
	Unscented  float64   // Unscented is everything but the scents.
	Scents     []float64 // Scents are in the order of the layer's list.
	Total      float64
	GramsPerML float64 // GramsPerML is at the batter's mixing temperature.
}

// Mixtures gives the make-up of each layer.
func (c Control) Mixtures() []Mixture {
	all := make([]Mixture, len(c.Recipe.Layers))
	for i := range all {
		all[i] = c.Mixture(i)
	}
	return all
}

// Mixture gives the make-up of a layer. Rates are of the oils; a scent stated as
// a share of the batter counts itself, so that total = rest / (1 - rate).
func (c Control) Mixture(layer int) Mixture {
	l := c.Recipe.Layers[layer]
	b, _ := c.Recipe.Batter(l.Batter)
	alkalis := c.AlkalisPerOil(b)
	m := Mixture{Water: max(0, c.waterBeside(b, alkalis, b.AdditiveGrams(1), 1))}
	for _, grams := range alkalis {
		m.Alkali += grams
	}
	additives, colours, ofOils, ofBatter := 0.0, 0.0, 0.0, 0.0
	for _, a := range b.Additives {
		additives += a.Rate.Fraction()
	}
	var wetting []calc.Part
	for _, k := range l.Colours {
		colours += k.Rate.Fraction()
		if o, ok := c.CarriedBy(k.Material, k.Rate.Fraction()); ok {
			wetting = append(wetting, calc.Part{Grams: o.Grams, GramsPerML: o.Oil.GramsPerML(b.MixAt)}, calc.Part{Grams: -o.Grams, GramsPerML: colourDensity})
		}
	}
	for _, s := range l.Scents {
		if s.Of == OfBatter {
			ofBatter += s.Rate.Fraction()
		} else {
			ofOils += s.Rate.Fraction()
		}
	}
	m.Unscented = 1 + m.Alkali + m.Water + additives + colours
	m.Total = (m.Unscented + ofOils) / (1 - ofBatter)
	for _, s := range l.Scents {
		grams := s.Rate.Fraction()
		if s.Of == OfBatter {
			grams *= m.Total
		}
		m.Scents = append(m.Scents, grams)
	}
	parts := []calc.Part{
		{Grams: m.Alkali + m.Water, GramsPerML: c.lyeDensity(b, m.Water)},
		{Grams: additives, GramsPerML: additiveDensity},
		{Grams: colours, GramsPerML: colourDensity},
		{Grams: m.Total - m.Unscented, GramsPerML: scentDensity},
	}
	for _, o := range b.Oils {
		use, _ := c.Oil(o.Oil)
		parts = append(parts, calc.Part{Grams: o.Share.Fraction(), GramsPerML: use.GramsPerML(b.MixAt)})
	}
	m.GramsPerML = calc.DensityByVolume(append(parts, wetting...)...)
	return m
}

// AlkalisPerOil gives grams of each alkali, as weighed, for each gram of oils, in
// the order of the batter's.
func (c Control) AlkalisPerOil(b Batter) []float64 {
	koh, rates := 0.0, b.AdditiveGrams(1)
	acids := c.Acids(b, rates)
	for _, o := range b.Oils {
		use, _ := c.Oil(o.Oil)
		koh += o.Share.Fraction() * use.SV.Nominal / 1000
	}
	koh += c.carriedKOH(b, rates)
	alkalis := make([]float64, len(b.Alkali))
	for i, a := range b.Alkali {
		m, _ := c.Material(a.Material)
		alkalis[i] = calc.AlkaliNeeded(koh, acids, b.Superfat.Fraction(), a.Share.Fraction(), MolarMass(a.Material), m.PureFraction())
	}
	return alkalis
}

// WaterPerOil gives the grams of water that a rule asks for, whether or not
// the alkali would dissolve in it.
func WaterPerOil(w calc.WaterRule, alkali float64) float64 {
	switch w.Kind {
	case calc.ByLyeConcentration:
		return alkali * (1 - w.Value) / w.Value
	case calc.ByWaterPerAlkali:
		return alkali * w.Value
	case calc.ByWaterOfOils:
		return w.Value
	}
	return 0
}

// MolarMass gives the molar mass of an alkali in g/mol.
func MolarMass(alkali string) float64 {
	if alkali == PotassiumHydroxide {
		return calc.MolarMassKOH
	}
	return calc.MolarMassNaOH
}

// PureFraction gives an alkali's purity as a fraction, or the strength of a stock
// solution; one that is not stated
// counts as 1, so that there is never more alkali than thought.
func (m Material) PureFraction() float64 {
	switch {
	case m.Stock > 0:
		return m.Stock.Fraction()
	case m.Purity == 0:
		return 1
	}
	return m.Purity.Fraction()
}

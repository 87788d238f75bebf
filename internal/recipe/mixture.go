package recipe

import "bench/internal/calc"

// Densities in g/mL of what the oils table does not hold: common practice and
// memory, no source. They only decide how much batter fills a mould.
const (
	scentDensity    = 0.95
	additiveDensity = 1.1
	colourDensity   = 2.8 // Mica; muscovite 2.77 to 2.88 (CRC Handbook, from memory).
)

// mixture is a layer's batter, in grams for each gram of its oils.
type mixture struct {
	unscented float64
	scents    []float64 // scents are in the order of the layer's list.
	total     float64
	density   float64 // density is in g/mL.
}

// alkaliPerOil gives grams of alkali, as weighed, for each gram of oils.
func (c *checker) alkaliPerOil(b Batter) float64 {
	koh, acids, alkali := 0.0, 0.0, 0.0
	for _, o := range b.Oils {
		for _, use := range c.oils {
			if use.Key == o.Oil {
				koh += o.Share.Fraction() * use.SV.Nominal / 1000
			}
		}
	}
	for _, a := range b.Additives {
		m, _ := c.w.material(a.Material)
		acids += a.Rate.Fraction() * m.Acid.Fraction()
	}
	for _, a := range b.Alkali {
		molar, purity := calc.MolarMassNaOH, 1.0
		if a.Material == PotassiumHydroxide {
			molar = calc.MolarMassKOH
		}
		if m, ok := c.w.material(a.Material); ok && m.Purity > 0 {
			purity = m.Purity.Fraction()
		}
		alkali += calc.AlkaliNeeded(koh, acids, b.Superfat.Fraction(), a.Share.Fraction(), molar, purity)
	}
	return alkali
}

// waterPerOil gives the grams of water that a rule asks for, whether or not
// the alkali would dissolve in it.
func waterPerOil(w calc.WaterRule, alkali float64) float64 {
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

// mix gives the make-up of a layer poured from a batter. A scent stated as a
// share of the batter counts itself, so that total = rest / (1 - rate).
func (c *checker) mix(b Batter, l Layer) mixture {
	alkali := c.alkaliPerOil(b)
	water := waterPerOil(b.Water, alkali)
	additives, colours, ofOils, ofBatter := 0.0, 0.0, 0.0, 0.0
	for _, a := range b.Additives {
		additives += a.Rate.Fraction()
	}
	for _, k := range l.Colours {
		colours += k.Rate.Fraction()
	}
	for _, s := range l.Scents {
		if s.Of == OfBatter {
			ofBatter += s.Rate.Fraction()
		} else {
			ofOils += s.Rate.Fraction()
		}
	}
	m := mixture{unscented: 1 + alkali + water + additives + colours}
	m.total = (m.unscented + ofOils) / (1 - ofBatter)
	for _, s := range l.Scents {
		grams := s.Rate.Fraction()
		if s.Of == OfBatter {
			grams *= m.total
		}
		m.scents = append(m.scents, grams)
	}
	parts := []calc.Part{
		{Grams: alkali + water, GramsPerML: calc.SodiumHydroxideDensity(calc.LyeConcentration(water, alkali), b.MixAt.Celsius())},
		{Grams: additives, GramsPerML: additiveDensity},
		{Grams: colours, GramsPerML: colourDensity},
		{Grams: m.total - m.unscented, GramsPerML: scentDensity},
	}
	for _, o := range b.Oils {
		for _, use := range c.oils {
			if use.Key == o.Oil {
				parts = append(parts, calc.Part{Grams: o.Share.Fraction(), GramsPerML: use.Density})
			}
		}
	}
	m.density = calc.DensityByVolume(parts...)
	return m
}

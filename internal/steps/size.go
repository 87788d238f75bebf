package steps

import (
	"slices"

	"bench/internal/calc"
	"bench/internal/quantity"
	"bench/internal/recipe"
)

// Densities that the oils table does not give, in g/mL.
const (
	scentDensity    = 0.95 // Fragrance and essential oils, 0.9 to 1.05 (from memory, common practice, no source).
	additiveDensity = 1.1  // Mostly watery solutions (common practice, no source).
	colourDensity   = 2.8  // Mica, muscovite 2.77 to 2.88 (CRC Handbook, from memory).
)

// oilExpansion is the change of an oil's density in g/mL per °C (Noureddini et
// al., JAOCS 69 (1992) 1184, from memory).
const oilExpansion = -0.00067

// mixture is what goes with each gram of a layer's oils.
type mixture struct {
	perOil  float64 // perOil is grams of batter per gram of oils, scent included.
	bare    float64 // bare is the same without what is stirred in after the split.
	density float64 // density is in g/mL.
}

// mixtureOf gives the make-up of a layer. Rates are of the oils, but a scent
// stated as a share of the batter counts itself: total = rest / (1 - rate).
func mixtureOf(c recipe.Control, b recipe.Batter, l recipe.Layer) mixture {
	alkali, water := lyePerOil(c, b)
	additives, colours, scents := 0.0, 0.0, 0.0
	for _, a := range b.Additives {
		additives += a.Rate.Fraction()
	}
	for _, k := range l.Colours {
		colours += k.Rate.Fraction()
	}
	ofBatter := 0.0
	for _, s := range l.Scents {
		if s.Of == recipe.OfBatter {
			ofBatter += s.Rate.Fraction()
		} else {
			scents += s.Rate.Fraction()
		}
	}
	bare := 1 + alkali + water + additives + colours
	total := (bare + scents) / (1 - ofBatter)
	scents = total - bare
	parts := []calc.Part{
		{Grams: alkali + water, GramsPerML: calc.SodiumHydroxideDensity(calc.LyeConcentration(water, alkali), b.MixAt.Celsius())},
		{Grams: additives, GramsPerML: additiveDensity},
		{Grams: colours, GramsPerML: colourDensity},
		{Grams: scents, GramsPerML: scentDensity},
	}
	for _, o := range b.Oils {
		parts = append(parts, calc.Part{Grams: o.Share.Fraction(), GramsPerML: oilDensity(c, b, o.Oil)})
	}
	return mixture{perOil: total, bare: bare, density: calc.DensityByVolume(parts...)}
}

// oilDensity gives an oil's density in g/mL where this batter is mixed. It was
// frozen at the temperature of the first batter that uses the oil.
func oilDensity(c recipe.Control, b recipe.Batter, key string) float64 {
	use, _ := c.Oil(key)
	for _, first := range c.Recipe.Batters {
		if slices.ContainsFunc(first.Oils, func(o recipe.OilShare) bool { return o.Oil == key }) {
			return use.Density + oilExpansion*(b.MixAt-first.MixAt).Celsius()
		}
	}
	return use.Density
}

// lyePerOil gives grams of alkali and of water per gram of a batter's oils.
func lyePerOil(c recipe.Control, b recipe.Batter) (alkali, water float64) {
	koh, acids := 0.0, 0.0
	for _, o := range b.Oils {
		use, _ := c.Oil(o.Oil)
		koh += o.Share.Fraction() * use.SV.Nominal / 1000
	}
	for _, a := range b.Additives {
		m, _ := c.Material(a.Material)
		acids += a.Rate.Fraction() * m.Acid.Fraction()
	}
	for _, a := range b.Alkali {
		m, _ := c.Material(a.Material)
		alkali += calc.AlkaliNeeded(koh, acids, b.Superfat.Fraction(), a.Share.Fraction(), molarMass(a.Material), purity(m))
	}
	water, _ = b.Water.Water(alkali, 1) // A recipe beyond the solubility never gets this far.
	return alkali, water
}

// molarMass gives the molar mass of an alkali in g/mol.
func molarMass(alkali string) float64 {
	if alkali == recipe.PotassiumHydroxide {
		return calc.MolarMassKOH
	}
	return calc.MolarMassNaOH
}

// purity gives an alkali's purity as a fraction; one that is not stated counts
// as 1, so that there is never more alkali than thought.
func purity(m recipe.Material) float64 {
	if m.Purity == 0 {
		return 1
	}
	return m.Purity.Fraction()
}

// size is a recipe at its loaves before anything is weighed.
type size struct {
	form     form
	mixtures []mixture       // mixtures are per layer.
	shares   []float64       // shares are each layer's part of its batter's oils.
	oils     []quantity.Mass // oils are per batter, before they are rounded to a scale.
}

// sizeOf scales a control recipe. Where the recipe states an oil weight the
// fill follows from it; otherwise the oils follow from the moulds, with what
// stays in each vessel on top.
func sizeOf(c recipe.Control) size {
	z := size{form: formOf(c), oils: make([]quantity.Mass, len(c.Recipe.Batters))}
	need := make([]float64, len(c.Recipe.Layers)) // grams of oils
	for i, l := range c.Recipe.Layers {
		b, _ := batterOf(c.Recipe, l.Batter)
		m := mixtureOf(c, b, l)
		z.mixtures = append(z.mixtures, m)
		poured := z.form.millilitres(i) * m.density * float64(c.Loaves)
		need[i] = (poured + clinging(c, i).Grams()) / m.perOil
	}
	z.shares = make([]float64, len(need))
	for bi, b := range c.Recipe.Batters {
		sum := 0.0
		for i, l := range c.Recipe.Layers {
			if l.Batter == b.Name {
				sum += need[i]
			}
		}
		for i, l := range c.Recipe.Layers {
			if l.Batter == b.Name && sum > 0 {
				z.shares[i] = need[i] / sum
			}
		}
		z.oils[bi] = quantity.FromGrams(sum)
		if b.OilWeight > 0 {
			z.oils[bi] = b.OilWeight
		}
	}
	return z
}

// clinging gives what a layer leaves behind: its part of what stays in the pot,
// and what stays in each vessel that it passes through on its way.
func clinging(c recipe.Control, layer int) quantity.Mass {
	l := c.Recipe.Layers[layer]
	siblings := len(layersOf(c.Recipe, l.Batter))
	vessels := quantity.Mass(0)
	if c.Loaves > 1 {
		vessels += quantity.Mass(c.Loaves)
	}
	if siblings > 1 {
		vessels++
	}
	return c.LeftInVessel*vessels + c.LeftInVessel/quantity.Mass(siblings)
}

// batterOf gives the batter of that name.
func batterOf(r recipe.Recipe, name string) (recipe.Batter, int) {
	for i, b := range r.Batters {
		if b.Name == name {
			return b, i
		}
	}
	return recipe.Batter{}, -1
}

// layersOf gives the places of the layers that a batter feeds, floor first.
func layersOf(r recipe.Recipe, batter string) []int {
	var at []int
	for i, l := range r.Layers {
		if l.Batter == batter {
			at = append(at, i)
		}
	}
	return at
}

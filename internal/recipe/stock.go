package recipe

import (
	"fmt"

	"bench/internal/calc"
)

// Dry gives what counts as alkali where water is stated by it: alkali as
// weighed, and of a stock solution what is dissolved in it.
func (c Control) Dry(b Batter, alkalis []float64) float64 {
	grams := 0.0
	for i, a := range b.Alkali {
		if m, _ := c.Material(a.Material); m.Stock > 0 {
			grams += alkalis[i] * m.Stock.Fraction()
		} else {
			grams += alkalis[i]
		}
	}
	return grams
}

// Concentration gives the lye concentration, a fraction: alkalis as weighed, in
// the order of the batter's, and the water weighed with them.
func (c Control) Concentration(b Batter, alkalis []float64, water float64) float64 {
	all, dry := 0.0, c.Dry(b, alkalis)
	for _, g := range alkalis {
		all += g
	}
	return calc.LyeConcentration(water+all-dry, dry)
}

// ExtraWater gives the grams of water to weigh: what the recipe wants, less
// what a stock solution and watery additives bring, all in grams. It is an error
// if they bring more than it wants, or if the alkali would not stay dissolved.
func (c Control) ExtraWater(b Batter, alkalis, additives []float64, oils float64) (float64, error) {
	extra := c.waterBeside(b, alkalis, additives, oils)
	dry := c.Dry(b, alkalis)
	if extra < -1e-9 {
		return 0, fmt.Errorf("stock solution and additives bring more water than the recipe has, by %.2g g for each gram of alkali: use a stronger stock, less of them, or more water", -extra/dry)
	}
	_, err := b.Water.Water(dry, oils)
	if err == nil {
		if w := c.Concentration(b, alkalis, extra); w > calc.MaxLyeConcentration+1e-9 {
			err = fmt.Errorf("the lye solution would be of %.1f %%, because additives bring the other water, and no more than %.1f %% dissolves at 20 °C: use less of them or more water",
				100*w, 100*calc.MaxLyeConcentration)
		}
	}
	return max(0, extra), err
}

// waterBeside is the same unchecked; below zero there is too much already.
func (c Control) waterBeside(b Batter, alkalis, additives []float64, oils float64) float64 {
	dry := c.Dry(b, alkalis)
	extra := WaterPerOil(b.Water, dry)
	if b.Water.Kind == calc.ByWaterOfOils {
		extra *= oils
	}
	for _, g := range alkalis {
		extra -= g
	}
	extra += dry
	for i, a := range b.Additives {
		m, _ := c.Material(a.Material)
		extra -= additives[i] * m.Water.Fraction()
	}
	return extra
}

// StockFrom says which stock solution an alkali is.
func (m Material) StockFrom() string {
	words := "the stock"
	if m.Lot != "" {
		words += " of lot " + m.Lot
	}
	if m.Made != "" {
		words += ", made " + m.Made
	}
	return words
}

// PurityFrom says where an alkali's purity was read.
func (m Material) PurityFrom() string {
	if m.Lot == "" {
		return "the container"
	}
	return "the container of lot " + m.Lot
}

package calc

import (
	"fmt"
	"math"
)

// Atomic weights in g/mol, CIAAW abridged (from memory).
const (
	atomicMassH = 1.008
	atomicMassC = 12.011
	atomicMassO = 15.999
)

// Molar masses in g/mol of the acids that makers add, by their formulas.
const (
	MolarMassCitric            = 6*atomicMassC + 8*atomicMassH + 7*atomicMassO // anhydrous, C₆H₈O₇
	MolarMassCitricMonohydrate = MolarMassCitric + 2*atomicMassH + atomicMassO // C₆H₈O₇·H₂O
	MolarMassLactic            = 3*atomicMassC + 6*atomicMassH + 3*atomicMassO // C₃H₆O₃
)

// How many moles of alkali a mole of each acid uses up.
const (
	ProtonsCitric = 3
	ProtonsLactic = 1
)

// AcidValue gives the mg of potassium hydroxide that a gram of an acid uses up:
// 1000·protons·M(KOH)/M, times its content. Lactic acid is sold as a solution,
// of 80 % (food) or 88 to 92 % (Ph. Eur., USP; from memory); part of it is
// lactoyl-lactic acid, which the alkali splits, so its total content as lactic
// acid counts. The content is a fraction of 1.
func AcidValue(molarMass float64, protons int, content float64) float64 {
	return 1000 * float64(protons) * MolarMassKOH / molarMass * content
}

// Carrier is an additive that brings water or an oil along: milk, purée, mica
// wetted in oil. Shares are fractions of 1.
type Carrier struct{ Grams, WaterShare, OilShare float64 }

// Split gives what a carrier brings, in grams. Water counts as the recipe's
// water, oil among the oils.
func (c Carrier) Split() (water, oil, rest float64) {
	water, oil = c.Grams*c.WaterShare, c.Grams*c.OilShare
	return water, oil, c.Grams - water - oil
}

// WaterLeft gives the water still to weigh when carriers bring a part of it.
// Carriers that bring more than the recipe wants are an error.
func WaterLeft(waterGrams float64, carriers ...Carrier) (float64, error) {
	left := waterGrams
	for _, c := range carriers {
		water, _, _ := c.Split()
		left -= water
	}
	if left < -1e-9*waterGrams {
		return 0, fmt.Errorf("additives bring %.1f g of water and the recipe has %.1f g: use less of them or a weaker lye solution",
			waterGrams-left, waterGrams)
	}
	return math.Max(0, left), nil
}

// FromPremelted gives the grams of premelted oils, in fixed shares, that bring
// as much of every oil as they can without bringing too much of any, and the
// grams of each oil that are then still to weigh. Shares are fractions of 1, in
// the order of the oils.
func FromPremelted(oilsGrams, shares []float64) (premeltedGrams float64, extra []float64, err error) {
	if len(oilsGrams) != len(shares) {
		return 0, nil, fmt.Errorf("%d oils and %d shares: state one for each", len(oilsGrams), len(shares))
	}
	if err := Possible(oilsGrams...); err != nil {
		return 0, nil, err
	}
	premeltedGrams = math.Inf(1)
	var sum float64
	for i, share := range shares {
		if share < 0 {
			return 0, nil, fmt.Errorf("share of %.4g %% is not possible: state zero or more", 100*share)
		}
		sum += share
		if share > 0 {
			premeltedGrams = math.Min(premeltedGrams, oilsGrams[i]/share)
		}
	}
	if !(math.Abs(sum-1) <= 1e-6) {
		return 0, nil, fmt.Errorf("shares of the premelted oils add up to %.4g %%: make them 100 %%", 100*sum)
	}
	extra = make([]float64, len(oilsGrams))
	for i, grams := range oilsGrams {
		extra[i] = math.Max(0, grams-premeltedGrams*shares[i])
	}
	return premeltedGrams, extra, nil
}

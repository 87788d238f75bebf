package solution

import (
	"math"

	"bench/internal/calc"
)

// The policy of this file: no table of potassium hydroxide could be read, so
// what is said of it is from memory or estimated, and each says which.

// PotassiumHydroxideDensity gives the density of aqueous potassium hydroxide in
// g/mL, by mass fraction of pure hydroxide. The model is Laliberté's, as for
// sodium hydroxide; its parameters (Laliberté & Cooper, J. Chem. Eng. Data 49
// (2004) 1141-1151) are from memory. They agree within 0.13 % from 1 to 50 %
// with the table at 15 °C that Perry's takes from the International Critical
// Tables, also from memory: a slip in either would show. Trust 0.3 % near
// 20 °C, and 1 % when hot.
func PotassiumHydroxideDensity(w, tC float64) float64 {
	const (
		c0 = 194.85
		c1 = 407.31
		c2 = 0.14542
		c3 = 0.002040
		c4 = 1180.9
	)
	water := waterDensity(tC)
	if w <= 0 {
		return water / 1000
	}
	apparent := (w + c2 + c3*tC) / ((c0*w + c1) * math.Exp(1e-6*(tC+c4)*(tC+c4)))
	return 1 / ((1-w)/water + w*apparent) / 1000
}

// MixedHydroxideDensity gives the density in g/mL of both hydroxides in one
// solution, as grams of pure hydroxide and of water. It is an estimate: the
// volumes of two solutions, each of one hydroxide and of the whole's strength,
// simply add up, which is the model's own rule for mixtures.
func MixedHydroxideDensity(naohGrams, kohGrams, waterGrams, tC float64) float64 {
	alkali := naohGrams + kohGrams
	w := calc.LyeConcentration(waterGrams, alkali)
	if w == 0 {
		return waterDensity(tC) / 1000
	}
	return calc.DensityByVolume(
		calc.Part{Grams: naohGrams, GramsPerML: SodiumHydroxideDensity(w, tC)},
		calc.Part{Grams: kohGrams, GramsPerML: PotassiumHydroxideDensity(w, tC)},
	)
}

// maxPotassiumConcentration is the solubility of potassium hydroxide at 20 °C,
// 112 g in 100 g of water (CRC Handbook, from memory), as a fraction of the mass.
const maxPotassiumConcentration = 0.528

// LeastWater gives the grams of water that dissolve the pure hydroxides at
// 20 °C, as if each had its own. Together they need no more, so it is on the
// careful side. Water that potassium hydroxide brings along counts as water.
func LeastWater(naohGrams, kohGrams float64) float64 {
	return naohGrams*(1-calc.MaxLyeConcentration)/calc.MaxLyeConcentration +
		kohGrams*(1-maxPotassiumConcentration)/maxPotassiumConcentration
}

// potassiumHeat gives the heat in kJ that dissolving a mole of potassium
// hydroxide sets free, and its half-width, by moles of water and of bound water
// per mole. It is an estimate. At infinite dilution it is 57.61 (CRC Handbook,
// from memory). A strong solution takes some of that back; how much is known
// only of sodium hydroxide, so half of that much is taken, give or take the
// half. A mole of bound water has given about 40 away already (hydrate: 38 by
// heats of formation, 43 in Perry's, from memory).
func potassiumHeat(waterPerAlkali, boundPerAlkali float64) (kJ, halfWidth float64) {
	const (
		infinite  = 57.61
		hydration = 40.0
		open      = 2.5 // per mole of bound water
	)
	bound := math.Min(1, boundPerAlkali)
	taken := (integralHeat(math.Inf(1)) - integralHeat(waterPerAlkali)) / 2
	return infinite - taken - hydration*bound, heatSpread + taken + open*bound
}

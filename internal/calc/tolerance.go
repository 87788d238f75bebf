package calc

// The tolerances of this file are common practice, no source: an error is
// small while all of them together move the superfat by a quarter point.
// Half of what the scale reads to is the least that can be asked for; the
// caller, who knows the scale, takes the greater of the two.
const (
	superfatStep = 0.0025 // of 1
	pellet       = 0.2    // g; one weighs 0.1 to 0.3 g
	waterSpread  = 0.02   // of the water
)

// OilTolerance gives the grams of one oil that move the superfat by a quarter
// point, shared out over the batter's ingredients. Since s = 1 − A/N, a gram
// moves it by (1−s)/N·SV/1000. Superfat is a fraction of 1, sv in mg KOH/g and
// above zero.
func OilTolerance(nKOHGrams, superfat, sv float64, ingredients int) float64 {
	return superfatStep / float64(max(ingredients, 1)) * nKOHGrams / ((1 - superfat) * sv / 1000)
}

// AlkaliTolerance is OilTolerance for an alkali, a gram of which moves the
// superfat by purity·M(KOH)/M/N.
func AlkaliTolerance(nKOHGrams, molarMass, purity float64, ingredients int) float64 {
	return superfatStep / float64(max(ingredients, 1)) * nKOHGrams * molarMass / (MolarMassKOH * purity)
}

// PelletTolerance gives the grams that a dry alkali may be off whatever its share of the
// quarter point: nobody weighs a part of a pellet. It never moves the superfat by more
// than a quarter point by itself.
func PelletTolerance(nKOHGrams, molarMass, purity float64) float64 {
	return min(pellet, AlkaliTolerance(nKOHGrams, molarMass, purity, 1))
}

// WaterTolerance gives the grams that water may be off.
func WaterTolerance(grams float64) float64 { return waterSpread * grams }

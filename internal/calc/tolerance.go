package calc

// The tolerances of this file are common practice, no source: an error is
// small while all of them together move the superfat by a quarter point.
// Half of what the scale reads to is the least that can be asked for; the
// caller, who knows the scale, takes the greater of the two.
const (
	superfatStep = 0.0025 // of 1
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

// WaterTolerance gives the grams that water may be off.
func WaterTolerance(grams float64) float64 { return waterSpread * grams }

package calc

// ScentShare gives the scent's fraction of the fresh finished product. The
// batter's mass includes the scent.
func ScentShare(scentGrams, batterGrams float64) float64 {
	return ScentShareCured(scentGrams, batterGrams, 0)
}

// ScentShareCured gives the scent's fraction after the bar has lost a fraction
// of its fresh mass, all of it water, so that the scent gathers. It is zero
// where nothing is left.
func ScentShareCured(scentGrams, batterGrams, loss float64) float64 {
	cured := batterGrams * (1 - loss)
	if cured <= 0 {
		return 0
	}
	return scentGrams / cured
}

// MostScent gives the largest grams of scent that may be added to a batter
// without scent, so that its fraction stays at the limit after the loss. It
// solves x = limit·(1−loss)·(batter + x). Limit and loss are fractions of 1.
func MostScent(unscentedGrams, limit, loss float64) float64 {
	fresh := limit * (1 - loss)
	return unscentedGrams * fresh / (1 - fresh)
}

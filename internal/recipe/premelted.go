package recipe

// OilPart is an oil and the part of a weighing that it is, a fraction.
type OilPart struct {
	OilUse

	Part float64
}

// PartsOf gives the oils that a weighing of an oil brings: that oil, or those of
// a blend.
func (c Control) PartsOf(use OilUse) []OilPart {
	if len(use.Blend) == 0 {
		return []OilPart{{use, 1}}
	}
	parts := make([]OilPart, 0, len(use.Blend))
	for _, part := range use.Blend {
		o, _ := c.Oil(part.Oil)
		parts = append(parts, OilPart{o, part.Share.Fraction()})
	}
	return parts
}

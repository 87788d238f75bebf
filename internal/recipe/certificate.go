package recipe

import (
	"bench/internal/calc"
)

// Certified says that the maker stated the material's saponification value.
func (m Material) Certified() bool { return m.SV.Nominal > 0 }

// CertifiedSV gives a certificate's value in mg KOH per g, with the half-width
// that it states; without one it is ± 0.5 %.
func CertifiedSV(value, halfWidth float64) calc.Interval {
	if halfWidth == 0 {
		return calc.Certificate(value)
	}
	return calc.Interval{Low: value - halfWidth, Nominal: value, High: value + halfWidth}
}

package oils

import "fmt"

// Expansion is the change of an oil's density in g/mL per °C. Vegetable oils
// lie between −0.00064 and −0.00070 (Noureddini et al., JAOCS 69 (1992) 1184,
// from memory).
const Expansion = -0.00067

// DensityGPerML gives the density of the liquid oil at tC, in g/mL: the
// midpoint of the relative density, times that of water at the reference
// temperature, moved from the stated temperature by −0.00067 g/mL per °C. It
// says nothing about an oil that has set, and beeswax is only listed as a
// solid.
func (o Oil) DensityGPerML(tC float64) float64 {
	water, err := waterDensity(o.DensityWater)
	if err != nil {
		panic(err) // reading the table has refused this already
	}
	return o.RelativeDensity.Mid()*water + Expansion*(tC-o.DensityAt)
}

// waterDensity knows water, in g/mL, at the temperatures that standards refer
// to (CRC Handbook, from memory).
func waterDensity(tC float64) (float64, error) {
	switch tC {
	case 4:
		return 1.0000, nil
	case 15:
		return 0.9991, nil
	case 15.5:
		return 0.9990, nil
	case 20:
		return 0.9982, nil
	case 25:
		return 0.9970, nil
	}
	return 0, fmt.Errorf("water density at %g °C is not listed: use 4, 15, 15.5, 20 or 25", tC)
}

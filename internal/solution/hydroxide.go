package solution

import "math"

// The model of this file: M. Laliberté, J. Chem. Eng. Data 54 (2009) 1725-1760,
// doi 10.1021/je8008123, equations and NaOH parameters as carried by the open
// data of the "chemicals" project. w is the mass fraction of NaOH, tC in °C.

// SodiumHydroxideDensity gives the density of aqueous sodium hydroxide in g/mL.
// Stated range 4 to 120 °C and w up to 0.503. Against handbook tables it runs
// low by up to 0.3 % at 40 % and 0.6 % at 50 %.
func SodiumHydroxideDensity(w, tC float64) float64 {
	const (
		c0 = 319.020509469838
		c1 = 528.592358475315
		c2 = -0.102197896602724
		c3 = 0.000350420706415566
		c4 = 765.970470238438
	)
	water := waterDensity(tC)
	if w <= 0 { // the apparent density has a pole near w = 0.1 − 0.00035·tC
		return water / 1000
	}
	// The volume of the solute, not its density: finite where the latter is not.
	apparent := (w + c2 + c3*tC) / ((c0*w + c1) * math.Exp(1e-6*(tC+c4)*(tC+c4)))
	return 1 / ((1-w)/water + w*apparent) / 1000
}

// waterDensity gives the density of water in kg/m³, 0 to 150 °C (Kell's
// expression, as used by the model).
func waterDensity(tC float64) float64 {
	top := -2.8054253e-10*tC + 1.0556302e-7
	for _, c := range []float64{-4.6170461e-5, -0.0079870401, 16.945176, 999.83952} {
		top = top*tC + c
	}
	return top / (1 + 0.01687985*tC)
}

// SodiumHydroxideHeatCapacity gives the heat capacity of aqueous sodium
// hydroxide in J/(g K). Stated range 4 to 120 °C and w up to 0.3035: usual lye
// solutions of 33 to 40 % are an extrapolation, smooth but about 5 % above the
// one handbook value near it (Perry's, from memory).
func SodiumHydroxideHeatCapacity(w, tC float64) float64 {
	const (
		a1 = -0.922780764834469
		a2 = -0.0412353462450485
		a3 = 1.8722524604359
		a4 = -5.94223565147303
		a5 = 3.13007617842649
		a6 = 0.141040805508813
	)
	water := waterHeatCapacity(tC)
	if w <= 0 {
		return water
	}
	apparent := a1*math.Exp(a2*tC+a3*math.Exp(0.01*tC)+a4*w) + a5*math.Pow(w, a6)
	return (1-w)*water + w*apparent
}

// waterHeatCapacity interpolates the model's own values for water, in J/(g K),
// and holds the outermost ones beyond.
func waterHeatCapacity(tC float64) float64 {
	table := [...]struct{ tC, cp float64 }{
		{20, 4.1848}, {25, 4.1819}, {40, 4.17886}, {60, 4.18277}, {80, 4.19552},
	}
	if tC <= table[0].tC {
		return table[0].cp
	}
	for i := 1; i < len(table); i++ {
		if a, b := table[i-1], table[i]; tC <= b.tC {
			return a.cp + (b.cp-a.cp)*(tC-a.tC)/(b.tC-a.tC)
		}
	}
	return table[len(table)-1].cp
}

// oilHeatCapacity in J/(g K), within 5 % for vegetable oils from 25 to 60 °C
// (Coupland & McClements, JAOCS 74 (1997) 1559, from memory).
const oilHeatCapacity = 2.0

// MixTemperature gives the temperature in °C at which molten oils and a lye
// solution meet, by the balance of heat before any reaction and before anything
// sets. Without either it is the other's temperature.
func MixTemperature(oilsGrams, oilsC float64, lye Stock) float64 {
	oils := oilsGrams * oilHeatCapacity
	s := lye.solution()
	joulesPerK := s.grams() * s.heatCapacity(lye.Celsius)
	if oils+joulesPerK == 0 {
		return oilsC
	}
	return (oils*oilsC + joulesPerK*lye.Celsius) / (oils + joulesPerK)
}

package solution

import (
	"math"

	"bench/internal/calc"
)

// Half-widths of what the heat balance stands on. Each covers the handbooks
// that disagree.
const (
	heatSpread         = 1.6  // kJ/mol: two tables and the interpolation between their rows
	dilutionSpread     = 2.0  // kJ/mol: the strong end is known least
	heatCapacitySpread = 0.05 // of the heat capacity
	thermometerSpread  = 1.0  // °C
)

// hydroxideSolidHeatCapacity is in J/(g K): 59.5 J/(mol K) for sodium
// hydroxide (CRC Handbook, as carried by the open data of "chemicals").
const hydroxideSolidHeatCapacity = 59.5 / calc.MolarMassNaOH

const molarMassWater = 18.015 // g/mol

// solution is hydroxide in water, in grams.
type solution struct{ NaOH, KOH, water float64 }

func (s solution) grams() float64    { return s.NaOH + s.KOH + s.water }
func (s solution) strength() float64 { return calc.LyeConcentration(s.water, s.NaOH+s.KOH) }

// moles gives those of alkali.
func (s solution) moles() float64 { return s.NaOH/calc.MolarMassNaOH + s.KOH/calc.MolarMassKOH }

// waterPerAlkali is in mol/mol, and infinite without alkali.
func (s solution) waterPerAlkali() float64 { return s.water / molarMassWater / s.moles() }

// heatCapacity is in J/(g K). A solution with potassium is taken to hold, mole
// for mole, as much heat as one of sodium hydroxide alone: an estimate, within
// about 8 % of 2.8 J/(g K) at 45 % potassium hydroxide (memory). The model of
// hydroxide.go is lowered by up to 2.5 %: it lies 4 to 5 % above Perry's at 18
// and 31 %, and 3 % above the enthalpy chart at 40 % (both from memory), and
// heatCapacitySpread covers both.
func (s solution) heatCapacity(celsius float64) float64 {
	if s.grams() == 0 {
		return 0
	}
	alike := solution{NaOH: s.moles() * calc.MolarMassNaOH, water: s.water}
	w := alike.strength()
	cp := SodiumHydroxideHeatCapacity(w, celsius) * (1 - 0.025*math.Min(1, w/0.3))
	return cp * alike.grams() / s.grams()
}

// typicalC is halfway between a room and a peak.
const typicalC = 60

// integralHeat gives the heat in kJ that dissolving a mole of solid sodium
// hydroxide at 25 °C sets free, by moles of water per mole.
//
// The rows are Felder & Rousseau, Elementary Principles of Chemical Processes,
// table B.11 (from memory), straight in 1/n between them. Two things are added,
// both to the middle between two sources and inside the spreads above. The
// table ends at 42.89 for infinite dilution where the CRC Handbook has 44.51
// (memory; its heats of formation, read, give 44.3): 0.81 on every row. The row
// of 50 % (n = 2.22) lies between the table carried on straight, 21.1, and
// McCabe's enthalpy-concentration chart, 24.7 on the same scale (memory).
func integralHeat(waterPerAlkali float64) float64 {
	const betweenTables = (44.51 - 42.89) / 2
	return betweenTables + along([]point{
		{0, 42.89},
		{1. / 20, 42.84},
		{1. / 10, 42.51},
		{1. / 5, 37.74},
		{1. / 4, 34.43},
		{1. / 3, 28.87},
		{1 / 2.22, 22.9},
	}, 1/waterPerAlkali)
}

// heatOfDissolving gives the heat in J that the solid alkali sets free on the way
// to a solution of n moles of water per mole, and its half-width. Potassium
// hydroxide is an estimate: see potassiumHeat.
func (s solution) heatOfDissolving(n, boundWater float64) (joules, halfWidth float64) {
	sodium := s.NaOH / calc.MolarMassNaOH
	potassium := s.KOH / calc.MolarMassKOH
	joules = 1000 * sodium * integralHeat(n)
	halfWidth = 1000 * sodium * heatSpread
	if potassium > 0 {
		kJ, spread := potassiumHeat(n, boundWater/molarMassWater/potassium)
		joules += 1000 * potassium * kJ
		halfWidth += 1000 * potassium * spread
	}
	return joules, halfWidth
}

// heatOfDiluting gives the heat in J that a solution sets free when it is let
// down to n moles of water per mole, and its half-width: none where nothing is
// diluted.
func (s solution) heatOfDiluting(n float64) (joules, halfWidth float64) {
	if s.moles() == 0 {
		return 0, 0
	}
	before, _ := s.heatOfDissolving(s.waterPerAlkali(), 0)
	after, _ := s.heatOfDissolving(n, 0)
	joules = after - before
	return joules, math.Min(math.Abs(joules), 1000*s.moles()*dilutionSpread)
}

// boilingPoint is in °C at sea level, by strength: Dühring lines of sodium
// hydroxide, Perry's (from memory), within about 3 °C. Potassium hydroxide is
// taken for the same.
func boilingPoint(strength float64) float64 {
	return along([]point{{0, 100}, {0.1, 103}, {0.2, 108}, {0.3, 117}, {0.4, 128}, {0.5, 142}}, strength)
}

type point struct{ x, y float64 }

// along reads y at x off a line through points that rise in x. The outermost
// pieces go on straight beyond them.
func along(points []point, x float64) float64 {
	i := 1
	for i < len(points)-1 && x > points[i].x {
		i++
	}
	a, b := points[i-1], points[i]
	return a.y + (b.y-a.y)*(x-a.x)/(b.x-a.x)
}

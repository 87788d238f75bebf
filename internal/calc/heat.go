package calc

import (
	"errors"
	"fmt"
	"math"
)

// The policy of this file: heat is counted from 25 °C, at which the heats of
// solution are published, and nothing is lost to the jug or the air. A real jug
// peaks some degrees lower; a hotter one is not to be expected.

// Estimate is a temperature that was calculated ahead. PlusMinus is its
// expanded uncertainty (k = 2) in °C. NearBoiling says that 100 °C lies within
// it, where water boils and spits; Celsius never passes the solution's own
// boiling point, which is higher.
type Estimate struct {
	Celsius, PlusMinus float64
	NearBoiling        bool
}

// Dissolving is alkali that is about to go into water. The grams of alkali are
// of pure hydroxide; what the container's purity leaves of potassium hydroxide
// is water that is bound already, and sets less heat free.
type Dissolving struct {
	NaOHGrams, KOHGrams         float64
	BoundWaterGrams, WaterGrams float64
	WaterC, AlkaliC             float64
}

// Peak gives the temperature that the solution reaches, from the integral heat
// of solution at its strength. The −44.5 kJ/mol of dilute solutions would be
// about 15 °C too high at 33 % and 35 °C at 40 %.
func (d Dissolving) Peak() (Estimate, error) {
	water := d.BoundWaterGrams + d.WaterGrams
	if err := possible(d.NaOHGrams, d.KOHGrams, d.BoundWaterGrams, d.WaterGrams); err != nil {
		return Estimate{}, err
	}
	if err := readable(d.WaterC, d.AlkaliC); err != nil {
		return Estimate{}, err
	}
	least := LeastWater(d.NaOHGrams, d.KOHGrams)
	if water <= 0 || water < least*(1-1e-9) {
		return Estimate{}, fmt.Errorf("%.1f g of water do not dissolve the alkali at 20 °C: use at least %.1f g", water, least)
	}
	s := solution{d.NaOHGrams, d.KOHGrams, water}
	freed, halfWidth := s.heatOfDissolving(d.BoundWaterGrams)
	alkaliC := hydroxideSolidHeatCapacity * (d.NaOHGrams + d.KOHGrams + d.BoundWaterGrams)
	return s.settles(freed, halfWidth,
		warm{alkaliC, d.AlkaliC},
		warm{waterHeatCapacity(d.WaterC) * d.WaterGrams, d.WaterC},
	), nil
}

// Dilution is a stock of sodium hydroxide of known strength, a fraction of 1,
// that is about to be let down with water.
type Dilution struct{ StockGrams, Strength, StockC, WaterGrams, WaterC float64 }

// Peak gives the temperature that the diluted solution reaches, from the
// difference of the integral heats at the two strengths.
func (d Dilution) Peak() (Estimate, error) {
	if !(d.Strength > 0) || d.Strength > MaxLyeConcentration {
		return Estimate{}, fmt.Errorf("stock solution of %.1f %% is not possible: state a strength above zero and up to %.1f %%",
			100*d.Strength, 100*MaxLyeConcentration)
	}
	if err := possible(d.StockGrams, d.WaterGrams); err != nil {
		return Estimate{}, err
	}
	if err := readable(d.StockC, d.WaterC); err != nil {
		return Estimate{}, err
	}
	if d.StockGrams == 0 {
		return Estimate{}, errors.New("there is no stock solution to dilute: state its grams")
	}
	alkali := d.StockGrams * d.Strength
	stock := solution{NaOH: alkali, water: d.StockGrams - alkali}
	let := solution{NaOH: alkali, water: stock.water + d.WaterGrams}
	moles := alkali / MolarMassNaOH
	freed := 1000 * moles * (integralHeat(let.waterPerAlkali()) - integralHeat(stock.waterPerAlkali()))
	halfWidth := math.Min(freed, 1000*moles*dilutionSpread) // none where nothing is diluted
	return let.settles(freed, halfWidth,
		warm{stock.heatCapacity() * d.StockGrams, d.StockC},
		warm{waterHeatCapacity(d.WaterC) * d.WaterGrams, d.WaterC},
	), nil
}

// possible refuses weights that are no weights.
func possible(grams ...float64) error {
	for _, g := range grams {
		if !(g >= 0) || math.IsInf(g, 1) {
			return fmt.Errorf("weight of %g g is not possible: state zero or more", g)
		}
	}
	return nil
}

// readable refuses temperatures that no thermometer shows.
func readable(celsius ...float64) error {
	for _, c := range celsius {
		if !finite(c) {
			return fmt.Errorf("temperature of %g °C is not possible: read the thermometer again", c)
		}
	}
	return nil
}

// warm is something that brings its own heat: J/K and its temperature.
type warm struct{ joulesPerK, celsius float64 }

// settles solves the balance of heat, J, for the solution's temperature.
// heatCapacitySpread and a degree on every thermometer widen it; the half-widths
// are rectangular (JCGM 100:2008, 4.3.7).
func (s solution) settles(freed, halfWidth float64, parts ...warm) Estimate {
	const referenceC = 25
	joulesPerK := s.heatCapacity() * s.grams()
	joules, square := freed, halfWidth*halfWidth
	for _, p := range parts {
		joules += p.joulesPerK * (p.celsius - referenceC)
		square += p.joulesPerK * p.joulesPerK * thermometerSpread * thermometerSpread
	}
	square += joules * joules * heatCapacitySpread * heatCapacitySpread
	e := Estimate{
		Celsius:   math.Min(referenceC+joules/joulesPerK, boilingPoint(s.strength())),
		PlusMinus: coverageFactor * math.Sqrt(square/3) / joulesPerK,
	}
	e.NearBoiling = e.Celsius+e.PlusMinus >= 100
	return e
}

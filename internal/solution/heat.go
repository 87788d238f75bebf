// Package solution is the arithmetic of alkali in water: how dense it is, how hot it
// gets, what leaves it as steam, and how it cools.
//
// The rule: every value has its source and the range that it holds in beside it; what
// follows is an estimate with its error, or an error that says why there is none.
package solution

import (
	"errors"
	"fmt"
	"math"

	"bench/internal/calc"
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

// String says it in whole degrees, its error rounded up: an estimate is never made out
// to be better than it is.
func (e Estimate) String() string {
	return fmt.Sprintf("%.0f °C, ± %.0f", e.Celsius, math.Ceil(e.PlusMinus))
}

// Dissolving is alkali that is about to go into water: dry, or a stock solution,
// or both. The grams of alkali are of pure hydroxide; what the container's purity
// leaves of potassium hydroxide is water that is bound already, and sets less
// heat free.
type Dissolving struct {
	NaOHGrams, KOHGrams         float64
	BoundWaterGrams, WaterGrams float64
	WaterC, AlkaliC             float64
	Stock                       Stock
}

// Stock is a lye solution that was made before, as grams of pure hydroxides and
// of water.
type Stock struct{ NaOHGrams, KOHGrams, WaterGrams, Celsius float64 }

func (k Stock) solution() solution { return solution{k.NaOHGrams, k.KOHGrams, k.WaterGrams} }

// Peak gives the temperature that the solution reaches, from the integral heats
// of solution at its strength, and of a stock from their difference at the two
// strengths. The −44.5 kJ/mol of dilute solutions would be about 15 °C too high
// at 33 % and 35 °C at 40 %.
func (d Dissolving) Peak() (Estimate, error) {
	if err := d.sound(); err != nil {
		return Estimate{}, err
	}
	stock, s := d.Stock.solution(), d.solution()
	if least := LeastWater(s.NaOH, s.KOH); s.water <= 0 || s.water < least*(1-1e-9) {
		return Estimate{}, fmt.Errorf("%.1f g of water do not dissolve the alkali at 20 °C: use at least %.1f g", s.water, least)
	}
	freed, halfWidth := solution{d.NaOHGrams, d.KOHGrams, 0}.heatOfDissolving(s.waterPerAlkali(), d.BoundWaterGrams)
	diluted, spread := stock.heatOfDiluting(s.waterPerAlkali())
	alkaliC := hydroxideSolidHeatCapacity * (d.NaOHGrams + d.KOHGrams + d.BoundWaterGrams)
	return s.settles(freed+diluted, halfWidth+spread,
		warm{alkaliC, d.AlkaliC},
		warm{waterHeatCapacity(d.WaterC) * d.WaterGrams, d.WaterC},
		warm{stock.heatCapacity(typicalC) * stock.grams(), d.Stock.Celsius},
	), nil
}

// solution is all of it, once it is dissolved.
func (d Dissolving) solution() solution {
	stock := d.Stock.solution()
	return solution{d.NaOHGrams + stock.NaOH, d.KOHGrams + stock.KOH, d.BoundWaterGrams + d.WaterGrams + stock.water}
}

const (
	latentHeat = 2257.0 // of water at 100 °C, J/g: steam tables, from memory
	// steamShare is how much of its heat a solution in an open jug may give off with
	// its steam; the rest leaves through the jug (an estimate, no source).
	steamShare = 0.5
)

// MostSteam gives the most grams of water that may leave as steam while it cools from
// its peak to the room: a share of the heat that it gives off, over the latent heat.
func (d Dissolving) MostSteam(roomC float64) (grams float64, err error) {
	peak, err := d.Peak()
	if err != nil {
		return 0, err
	}
	s := d.solution()
	return steamShare * s.heatCapacity(typicalC) * s.grams() * max(0, peak.Celsius-roomC) / latentHeat, nil
}

// sound refuses what cannot be put together.
func (d Dissolving) sound() error {
	k := d.Stock
	if err := calc.Possible(d.NaOHGrams, d.KOHGrams, d.BoundWaterGrams, d.WaterGrams, k.NaOHGrams, k.KOHGrams, k.WaterGrams); err != nil {
		return err
	}
	if err := readable(d.WaterC, d.AlkaliC, k.Celsius); err != nil {
		return err
	}
	if least := LeastWater(k.NaOHGrams, k.KOHGrams); k.WaterGrams < least*(1-1e-9) {
		return fmt.Errorf("stock solution of %.1f %% is not possible: its alkali needs at least %.1f g of water", 100*k.solution().strength(), least)
	}
	if d.NaOHGrams+d.KOHGrams+k.NaOHGrams+k.KOHGrams == 0 {
		return errors.New("there is no alkali to dissolve: state its grams")
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
	joulesPerK := s.heatCapacity(typicalC) * s.grams()
	joules, square := freed, halfWidth*halfWidth
	for _, p := range parts {
		joules += p.joulesPerK * (p.celsius - referenceC)
		square += p.joulesPerK * p.joulesPerK * thermometerSpread * thermometerSpread
	}
	square += joules * joules * heatCapacitySpread * heatCapacitySpread
	e := Estimate{
		Celsius:   math.Min(referenceC+joules/joulesPerK, boilingPoint(s.strength())),
		PlusMinus: calc.CoverageFactor * math.Sqrt(square/3) / joulesPerK,
	}
	e.NearBoiling = e.Celsius+e.PlusMinus >= 100
	return e
}

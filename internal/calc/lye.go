package calc

import (
	"fmt"
	"math"
)

// WaterKind says how a recipe states its water.
type WaterKind int

// The three ways the trade states water. Alkali is always as weighed.
const (
	ByLyeConcentration WaterKind = iota // alkali / (alkali + water), a fraction of 1
	ByWaterPerAlkali                    // water / alkali, 2 for "2:1"
	ByWaterOfOils                       // water / oils, a fraction of 1
)

// WaterRule is the water of a recipe as it states it.
type WaterRule struct {
	Kind  WaterKind
	Value float64
}

// MaxLyeConcentration is the solubility of sodium hydroxide at 20 °C, 109 g in
// 100 g of water (ICSC, second-hand in NITE Japan), as a fraction of the mass.
// Potassium hydroxide dissolves a little better (CRC Handbook, from memory), so
// the one limit serves both.
const MaxLyeConcentration = 0.522

// Water gives the grams of water. It is an error if the rule's value makes no
// sense or if the alkali would not stay dissolved at 20 °C.
func (w WaterRule) Water(alkaliGrams, oilsGrams float64) (float64, error) {
	if !(w.Value > 0) || math.IsInf(w.Value, 1) {
		return 0, fmt.Errorf("water of %g is not possible: state a number above zero", w.Value)
	}
	var water float64
	switch w.Kind {
	case ByLyeConcentration:
		if w.Value >= 1 {
			return 0, tooStrong(w.Value, alkaliGrams)
		}
		water = alkaliGrams * (1 - w.Value) / w.Value
	case ByWaterPerAlkali:
		water = alkaliGrams * w.Value
	case ByWaterOfOils:
		water = oilsGrams * w.Value
	default:
		return 0, fmt.Errorf("water rule %d is unknown: state a lye concentration, water to alkali or a share of oils", w.Kind)
	}
	// The room for rounding lets a rule ask for the limit itself.
	if strength := LyeConcentration(water, alkaliGrams); strength > MaxLyeConcentration+1e-9 {
		return 0, tooStrong(strength, alkaliGrams)
	}
	return water, nil
}

func tooStrong(strength, alkaliGrams float64) error {
	least := alkaliGrams * (1 - MaxLyeConcentration) / MaxLyeConcentration
	return fmt.Errorf("lye concentration of %.4g %% is above the %.1f %% by mass that dissolves at 20 °C: use at least %.1f g of water for %.1f g of alkali",
		100*strength, 100*MaxLyeConcentration, least, alkaliGrams)
}

// LyeConcentration gives the alkali's fraction of the solution's mass, and zero
// for no solution at all.
func LyeConcentration(waterGrams, alkaliGrams float64) float64 {
	if waterGrams+alkaliGrams == 0 {
		return 0
	}
	return alkaliGrams / (waterGrams + alkaliGrams)
}

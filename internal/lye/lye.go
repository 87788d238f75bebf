// Package lye forecasts a lye solution: how hot it gets when it is made, and
// when it has cooled to where it is wanted.
//
// The rule: a forecast follows from what is weighed or was read, is an estimate
// with its error, and is none at all where the weights make no solution.
package lye

import (
	"fmt"
	"math"

	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/solution"
)

// Solution is a batter's lye solution as it is about to be made.
type Solution struct {
	Control recipe.Control
	Batter  recipe.Batter
	Alkalis []float64 // Alkalis are in grams as weighed, in the order of the batter's.
	Water   float64   // Water is in grams, beside what the alkalis bring.
}

// Peak forecasts how hot it gets, from water and alkali that stood in the room;
// false where the weights make no solution.
func (s Solution) Peak() (solution.Estimate, bool) {
	e, err := s.dissolving().Peak()
	return e, err == nil
}

// MostSteam gives how much water it may lose as steam until it is as cold as the room;
// none where the weights make no solution.
func (s Solution) MostSteam() quantity.Mass {
	grams, err := s.dissolving().MostSteam(s.Control.RoomTemperature().Celsius())
	if err != nil {
		return 0
	}
	return quantity.FromGrams(grams)
}

func (s Solution) dissolving() solution.Dissolving {
	room := s.Control.RoomTemperature().Celsius()
	dry, stock := s.Control.Hydroxides(s.Batter, s.part(false)), s.Control.Hydroxides(s.Batter, s.part(true))
	return solution.Dissolving{
		NaOHGrams: dry.NaOH, KOHGrams: dry.KOH, BoundWaterGrams: dry.Bound,
		WaterGrams: s.Water, WaterC: room, AlkaliC: room,
		Stock: solution.Stock{NaOHGrams: stock.NaOH, KOHGrams: stock.KOH, WaterGrams: stock.Bound, Celsius: room},
	}
}

// part gives the alkalis that are stock solutions, or those that are not, with
// nothing in the place of the others.
func (s Solution) part(stock bool) []float64 {
	grams := make([]float64, len(s.Alkalis))
	for i, a := range s.Batter.Alkali {
		if m, _ := s.Control.Material(a.Material); (m.Stock > 0) == stock {
			grams[i] = s.Alkalis[i]
		}
	}
	return grams
}

// Made gives so many grams of the solution as it stands, at a temperature.
func (s Solution) Made(grams, celsius float64) solution.Stock {
	h := s.Control.Hydroxides(s.Batter, s.Alkalis)
	all := h.NaOH + h.KOH + h.Bound + s.Water
	if all <= 0 {
		return solution.Stock{WaterGrams: grams, Celsius: celsius}
	}
	part := grams / all
	return solution.Stock{NaOHGrams: part * h.NaOH, KOHGrams: part * h.KOH, WaterGrams: part * (h.Bound + s.Water), Celsius: celsius}
}

// SayPeak puts the forecast into words for the hand that is about to stir.
func (s Solution) SayPeak() string {
	e, ok := s.Peak()
	switch {
	case !ok:
		return "It may heat to near boiling and steam"
	case e.NearBoiling:
		return fmt.Sprintf("It can reach %.0f °C, give or take %.0f, and then it boils and spits: add it slowly, the jug in cold water", e.Celsius, math.Ceil(e.PlusMinus))
	}
	return fmt.Sprintf("It can reach %.0f °C, give or take %.0f, and it steams", e.Celsius, math.Ceil(e.PlusMinus))
}

// Stock gives the strength of the stock solution that it comes from, if it does.
func (s Solution) Stock() (strength float64, ok bool) {
	for _, a := range s.Batter.Alkali {
		if m, _ := s.Control.Material(a.Material); m.Stock > 0 {
			return m.Stock.Fraction(), true
		}
	}
	return 0, false
}

// Order asks for the alkali to be dissolved, or for the stock solution, which is
// in the jug already, to be mixed with its water.
func (s Solution) Order() string {
	if _, ok := s.Stock(); ok && len(s.Batter.Alkali) == 1 {
		return "Stir stock solution and water until no streaks show"
	}
	return "Tip the alkali into the water, a little at a time, and stir until clear"
}

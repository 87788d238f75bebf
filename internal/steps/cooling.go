package steps

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"time"

	"bench/internal/batch"
	"bench/internal/calc"
	"bench/internal/quantity"
	"bench/internal/timer"
)

const coolTimer = "cool/"

func lyeTemperatureID(batter string) string { return batter + "/lye temperature" }

// peak forecasts how hot the lye solution gets, from water and alkali that
// stood in the room; false where the weights make no solution.
func (p *planner) peak(k pot) (calc.Estimate, bool) {
	grams := make([]float64, len(k.alkali))
	for i, t := range k.alkali {
		grams[i] = amount(t).Mass.Grams()
	}
	h, room := p.c.Hydroxides(k.recipe, grams), p.c.RoomTemperature().Celsius()
	if strength, stock := p.stock(k); stock {
		e, err := calc.Dilution{
			StockGrams: grams[0], Strength: strength, StockC: room, WaterGrams: amount(k.water).Mass.Grams(), WaterC: room,
		}.Peak()
		return e, err == nil && len(k.alkali) == 1 && h.KOH == 0
	}
	e, err := calc.Dissolving{
		NaOHGrams: h.NaOH, KOHGrams: h.KOH, BoundWaterGrams: h.Bound,
		WaterGrams: amount(k.water).Mass.Grams(), WaterC: room, AlkaliC: room,
	}.Peak()
	return e, err == nil
}

// sayPeak puts the forecast into words for the hand that is about to stir.
func (p *planner) sayPeak(k pot) string {
	e, ok := p.peak(k)
	switch {
	case !ok:
		return "It may heat to near boiling and steam"
	case e.NearBoiling:
		return fmt.Sprintf("It can reach %.0f °C, give or take %.0f, and then it boils and spits: add it slowly, the jug in cold water", e.Celsius, math.Ceil(e.PlusMinus))
	}
	return fmt.Sprintf("It can reach %.0f °C, give or take %.0f, and it steams", e.Celsius, math.Ceil(e.PlusMinus))
}

// readings gives every temperature of a batter's lye solution since the alkali
// was dissolved, as corrected, with the moment of the first.
func (p *planner) readings(batter string) (list []calc.Reading, first timer.Moment) {
	dissolved, ok := p.s.Done(dissolveID(batter))
	if !ok {
		return nil, first
	}
	var better map[int]batch.Fact // Mostly nothing is corrected.
	for _, e := range p.s.Entries {
		if c, ok := e.Fact.(batch.Corrected); ok {
			if better == nil {
				better = map[int]batch.Fact{}
			}
			better[c.Seq] = c.With
		}
	}
	for _, e := range p.s.Entries {
		f, ok := e.Fact.(batch.TemperatureTaken)
		if with, again := better[e.Seq].(batch.TemperatureTaken); again && with.Task == f.Task {
			f = with
		}
		if !ok || f.Task != lyeTemperatureID(batter) || e.Seq < dissolved.Seq {
			continue
		}
		if len(list) == 0 {
			first = e.At
		}
		since, _ := e.At.Since(first)
		list = append(list, calc.Reading{Seconds: since.Seconds(), Celsius: f.Temperature.Celsius()})
	}
	return list, first
}

// coolsAt forecasts when the lye solution has cooled to where it is wanted, as
// a timer, from two readings or more.
func (p *planner) coolsAt(k pot) (timer.Timer, error) {
	name := k.recipe.Name
	list, first := p.readings(name)
	fit, err := calc.FitCooling(list, p.c.RoomTemperature().Celsius())
	if err != nil {
		return timer.Timer{}, err
	}
	forecast, err := fit.Reaches(k.recipe.MixAt.Celsius())
	if err != nil {
		return timer.Timer{}, err
	}
	minutes := math.Max(1, math.Ceil(forecast.PlusMinus/60))
	return timer.Timer{
		ID:    coolTimer + name,
		Label: fmt.Sprintf("%s lye solution at %s, give or take %.0f min", name, k.recipe.MixAt, minutes),
		Start: first, After: time.Duration(math.Max(1, forecast.Seconds)) * time.Second,
	}, nil
}

// coolHint says what the readings so far tell.
func (p *planner) coolHint(k pot) string {
	if p.ticked(combineID(k.recipe.Name)) {
		return ""
	}
	list, _ := p.readings(k.recipe.Name)
	if len(list) == 0 {
		return ""
	}
	last := fmt.Sprintf("Last read %s. ", quantity.FromCelsius(list[len(list)-1].Celsius))
	t, err := p.coolsAt(k)
	switch {
	case err == nil:
		return last + "Forecast: " + t.Label + "; the timer counts down to it."
	case errors.Is(err, calc.ErrFewReadings):
		return last + "A second reading some minutes later forecasts when it is cool enough."
	}
	return last + "No forecast: " + err.Error() + "."
}

// fresh says that the lye solution was read once all was there: the solution,
// the oils, and a layer below that takes a pour. An earlier reading serves the
// forecast, and the gate asks again.
func (p *planner) fresh(k pot, after []string) bool {
	read, ok := p.s.Temperature(lyeTemperatureID(k.recipe.Name))
	if !ok {
		return false
	}
	for _, t := range k.allOils() {
		if !t.Done || t.Seq > read.Seq {
			return false
		}
	}
	for _, stage := range after {
		if layer, isFirm := strings.CutPrefix(stage, "firm/"); isFirm {
			if d, ok := p.s.Done(layer + "/firm"); !ok || d.Seq > read.Seq {
				return false
			}
		}
	}
	for _, id := range []string{dissolveID(k.recipe.Name), k.recipe.Name + "/melt"} {
		if d, ok := p.s.Done(id); ok && d.Seq > read.Seq {
			return false
		}
	}
	return true
}

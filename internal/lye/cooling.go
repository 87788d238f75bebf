package lye

import (
	"errors"
	"fmt"
	"math"
	"time"

	"bench/internal/batch"
	"bench/internal/quantity"
	"bench/internal/solution"
	"bench/internal/timer"
)

// CoolTimer begins the id of a forecast's timer; the batter's name follows.
const CoolTimer = "cool/"

// Cooling is a lye solution on its way down.
type Cooling struct {
	Batter   string
	Room     quantity.Temperature
	Wanted   quantity.Temperature
	Readings []solution.Reading
	First    timer.Moment // First is when it was read first.
}

// Read adds every temperature that was read for a task since a fact, as
// corrected.
func (c Cooling) Read(s batch.State, task string, since int) Cooling {
	for _, e := range batch.Standing(s.Entries) {
		f, ok := e.Fact.(batch.TemperatureTaken)
		if !ok || f.Task != task || e.Seq < since {
			continue
		}
		if len(c.Readings) == 0 {
			c.First = e.At
		}
		after, _ := e.At.Since(c.First)
		c.Readings = append(c.Readings, solution.Reading{Seconds: after.Seconds(), Celsius: f.Temperature.Celsius()})
	}
	return c
}

// Timer forecasts when it has cooled to where it is wanted, from two readings or
// more.
func (c Cooling) Timer() (timer.Timer, error) {
	fit, err := solution.FitCooling(c.Readings, c.Room.Celsius())
	if err != nil {
		return timer.Timer{}, err
	}
	forecast, err := fit.Reaches(c.Wanted.Celsius())
	if err != nil {
		return timer.Timer{}, err
	}
	minutes := math.Max(1, math.Ceil(forecast.PlusMinus/60))
	return timer.Timer{
		ID:    CoolTimer + c.Batter,
		Label: fmt.Sprintf("%s lye solution at %s, give or take %.0f min", c.Batter, c.Wanted, minutes),
		Start: c.First, After: time.Duration(math.Max(1, forecast.Seconds)) * time.Second,
		Priority: timer.ActNow, // It goes on cooling.
	}, nil
}

// Hint says what the readings so far tell.
func (c Cooling) Hint() string {
	if len(c.Readings) == 0 {
		return ""
	}
	last := fmt.Sprintf("Last read %s. ", quantity.FromCelsius(c.Readings[len(c.Readings)-1].Celsius))
	t, err := c.Timer()
	switch {
	case err == nil:
		return last + "Forecast: " + t.Label + "; the timer counts down to it."
	case errors.Is(err, solution.ErrFewReadings):
		return last + "A second reading some minutes later forecasts when it is cool enough."
	}
	return last + "No forecast: " + err.Error() + "."
}

package solution

import (
	"errors"
	"fmt"
	"math"

	"bench/internal/calc"
)

// The policy of this file: Newton's law of cooling, T = room + (T₀ − room)·e^(−kt),
// with k from the maker's own readings. A pot that is stirred or lidded between
// readings does not keep to it; readings that scatter widen the error.

// Reading is a temperature at a time in seconds, from any start.
type Reading struct{ Seconds, Celsius float64 }

// Why there is no forecast; [errors.Is] finds these in what this file returns.
var (
	ErrFewReadings  = errors.New("a forecast needs two readings at different times")
	ErrNotCooling   = errors.New("the readings are not falling")
	ErrAtRoom       = errors.New("a reading is at the room's temperature already")
	ErrTargetAtRoom = errors.New("what stands in a room does not cool below it")
	ErrThere        = errors.New("the temperature is reached already")
	ErrTooSoon      = errors.New("the readings lie too close together for a forecast")
)

// Cooling is a fitted law of cooling: k and its expanded uncertainty (k = 2),
// both per second.
type Cooling struct {
	PerSecond, PlusMinus float64

	roomC, logExcess      float64 // at the reference time
	reference             float64 // the readings' weighted mean time, where both parameters part
	logVariance, variance float64 // of logExcess and of PerSecond, standard
	last                  Reading
}

// FitCooling fits the law to two or more readings, in order of time, in a room
// of known temperature. Each reading is open by a degree, rectangular; ln(T −
// room) is fitted by least squares with the weights that follow. Readings that
// scatter by more than that widen the result (Birge ratio).
func FitCooling(readings []Reading, roomC float64) (Cooling, error) {
	if err := coolable(readings, roomC); err != nil {
		return Cooling{}, err
	}
	var weights, times, logs float64
	for _, r := range readings {
		w := weight(r, roomC)
		weights += w
		times += w * r.Seconds
		logs += w * math.Log(r.Celsius-roomC)
	}
	c := Cooling{roomC: roomC, reference: times / weights, logExcess: logs / weights, last: readings[len(readings)-1]}
	var square, product float64
	for _, r := range readings {
		t := r.Seconds - c.reference
		square += weight(r, roomC) * t * t
		product += weight(r, roomC) * t * math.Log(r.Celsius-roomC)
	}
	c.PerSecond = -product / square
	if c.PerSecond <= 0 {
		return Cooling{}, ErrNotCooling
	}
	wider := c.scatter(readings)
	c.logVariance, c.variance = wider/weights, wider/square
	c.PlusMinus = calc.CoverageFactor * math.Sqrt(c.variance)
	return c, nil
}

// weight is the inverse variance of ln(T − room), which is u(T)/(T − room).
func weight(r Reading, roomC float64) float64 {
	u := thermometerSpread / math.Sqrt(3) / (r.Celsius - roomC)
	return 1 / (u * u)
}

// scatter is the Birge ratio squared, and never below 1.
func (c Cooling) scatter(readings []Reading) float64 {
	if len(readings) == 2 {
		return 1
	}
	var square float64
	for _, r := range readings {
		off := math.Log(r.Celsius-c.roomC) - c.logExcess + c.PerSecond*(r.Seconds-c.reference)
		square += weight(r, c.roomC) * off * off
	}
	return math.Max(1, square/float64(len(readings)-2))
}

// coolable finds readings from which no forecast can follow.
func coolable(readings []Reading, roomC float64) error {
	if len(readings) < 2 {
		return ErrFewReadings
	}
	for i, r := range readings {
		if !finite(r.Seconds, r.Celsius, roomC) {
			return fmt.Errorf("%w: %g °C after %g s is no reading", ErrFewReadings, r.Celsius, r.Seconds)
		}
		if r.Celsius <= roomC+thermometerSpread {
			return fmt.Errorf("%w: %.1f °C in a room of %.1f °C", ErrAtRoom, r.Celsius, roomC)
		}
		if i == 0 {
			continue
		}
		before := readings[i-1]
		if r.Seconds <= before.Seconds {
			return ErrFewReadings
		}
		if r.Celsius > before.Celsius+2*thermometerSpread {
			return fmt.Errorf("%w: %.1f °C after %.1f °C", ErrNotCooling, r.Celsius, before.Celsius)
		}
	}
	return nil
}

// CoolingForecast is a time on the readings' clock, in seconds, with its
// expanded uncertainty (k = 2).
type CoolingForecast struct{ Seconds, PlusMinus float64 }

// Reaches forecasts when the temperature has fallen to targetC. A target within
// a degree of the room cannot be told from it, and a rate that is not known to
// a third gives no time worth naming.
func (c Cooling) Reaches(targetC float64) (CoolingForecast, error) {
	if !(targetC > c.roomC+thermometerSpread) {
		return CoolingForecast{}, fmt.Errorf("%w: %.1f °C is wanted in a room of %.1f °C", ErrTargetAtRoom, targetC, c.roomC)
	}
	if targetC >= c.last.Celsius {
		return CoolingForecast{}, ErrThere
	}
	if c.PlusMinus > c.PerSecond/3 {
		return CoolingForecast{}, fmt.Errorf("%w: read again when it has cooled further", ErrTooSoon)
	}
	later := (c.logExcess - math.Log(targetC-c.roomC)) / c.PerSecond
	u := math.Sqrt(c.logVariance+later*later*c.variance) / c.PerSecond
	return CoolingForecast{Seconds: c.reference + later, PlusMinus: calc.CoverageFactor * u}, nil
}

func finite(values ...float64) bool {
	for _, v := range values {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}

package lye

import (
	"math"
	"time"

	"bench/internal/solution"
)

// The policy of this file: what a thermometer can show some time after a lye solution was
// made or read, by Newton's law between the fastest and the slowest that it cools. It finds
// slips, so both are wide (common practice, no source).

const (
	fastest = 4 * time.Minute // fastest is the time constant of a small jug, stirred in ice water.
	slowest = 6 * time.Hour   // slowest is that of a large one, wrapped.
	coldest = 0.0             // coldest is ice water, in °C.

	// WarmedTo is how warm, in °C, a cold one may have been made again in a bath of hot water.
	WarmedTo = 70.0
)

// Span is between what and what a temperature is plausible, in °C.
type Span struct{ Low, High float64 }

// Holds says that a temperature is plausible.
func (s Span) Holds(celsius float64) bool { return celsius >= s.Low && celsius <= s.High }

// After gives what is plausible some time after a temperature was reached, in a room.
func After(from solution.Estimate, roomC float64, d time.Duration) Span {
	left := func(constant time.Duration) float64 { return math.Exp(-float64(max(0, d)) / float64(constant)) }
	hot := from.Celsius + from.PlusMinus
	return Span{
		Low:  coldest + max(0, from.Celsius-from.PlusMinus-coldest)*left(fastest),
		High: max(WarmedTo, roomC+max(0, hot-roomC)*left(slowest)),
	}
}

package main

import (
	"time"

	"bench/internal/timer"
)

// nowFunc tells the moment.
type nowFunc func() timer.Moment

// machineNow reads the machine's clocks.
func machineNow() timer.Moment {
	boot, since := bootClock()
	return timer.Moment{Wall: time.Now().Round(0), Boot: boot, SinceBoot: since}
}

// setNow is a clock that stood at start when it began, and has run on since, so
// many times as fast as the machine's. It knows no boot, so that timers go by it
// alone.
func setNow(start, began time.Time, speed float64) nowFunc {
	return func() timer.Moment {
		return timer.Moment{Wall: start.Add(time.Duration(float64(time.Since(began)) * speed))}
	}
}

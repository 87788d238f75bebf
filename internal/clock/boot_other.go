//go:build !linux

package clock

import "time"

// bootClock knows nothing here: timers go by the wall clock.
func bootClock() (boot string, since time.Duration) { return "", 0 }

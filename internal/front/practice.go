package front

import (
	"fmt"
	"time"
)

// Practice is what there is to say of a sitting that leaves no trace. The zero
// value is the real thing.
type Practice struct {
	Speed func() int // Speed is how many times as fast the clock runs.
	Turn  func()     // Turn goes to the next speed.

	Forward func(time.Duration) // Forward puts the clock forward.
}

// On says that nothing of it is kept.
func (p Practice) On() bool { return p.Speed != nil }

// Pace is how many times as fast as a hand the clock runs.
func (p Practice) Pace() int {
	if !p.On() {
		return 1
	}
	return p.Speed()
}

// Words say how fast the clock runs.
func (p Practice) Words() string {
	if n := p.Pace(); n > 1 {
		return fmt.Sprintf("clock %d times as fast", n)
	}
	return "clock as usual"
}

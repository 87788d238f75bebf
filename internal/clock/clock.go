// Package clock tells the moment: by the machine's clocks, or by one that was set.
//
// The rule: the time of a clock never jumps, whatever is done to its speed; it is only
// put forward when it is told to be.
package clock

import (
	"sync"
	"time"

	"bench/internal/timer"
)

// Machine reads the machine's clocks.
func Machine() timer.Moment {
	boot, since := bootClock()
	return timer.Moment{Wall: time.Now().Round(0), Boot: boot, SinceBoot: since}
}

// Clock is one that stood at a time when it was set, and has run on since, so many
// times as fast as the machine's. It knows no boot, so that timers go by it alone.
type Clock struct {
	mu    sync.Mutex
	stood time.Time
	set   time.Time
	speed float64
}

// Set gives the clock that stood at a time at that moment of the machine's.
func Set(stood, at time.Time, speed float64) *Clock {
	return &Clock{stood: stood.Round(0), set: at, speed: speed}
}

// Now gives its time.
func (c *Clock) Now() timer.Moment {
	c.mu.Lock()
	defer c.mu.Unlock()
	return timer.Moment{Wall: c.wall()}
}

func (c *Clock) wall() time.Time {
	return c.stood.Add(time.Duration(float64(time.Since(c.set)) * c.speed))
}

// Pace gives how fast it runs, in whole times.
func (c *Clock) Pace() int {
	c.mu.Lock()
	defer c.mu.Unlock()
	return max(1, int(c.speed))
}

// Turn goes to the next speed.
func (c *Clock) Turn() {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.stood, c.set = c.wall(), time.Now()
	switch {
	case c.speed < 10:
		c.speed = 10
	case c.speed < 60:
		c.speed = 60
	default:
		c.speed = 1
	}
}

// Forward puts it forward; nothing puts it back.
func (c *Clock) Forward(by time.Duration) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.stood = c.stood.Add(max(0, by))
}

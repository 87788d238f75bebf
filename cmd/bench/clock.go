package main

import (
	"sync"
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

// setClock is a clock that stood at a time when it was set, and has run on since,
// so many times as fast as the machine's. It knows no boot, so that timers go by
// it alone.
type setClock struct {
	mu    sync.Mutex
	stood time.Time
	set   time.Time
	speed float64
}

func (c *setClock) now() timer.Moment {
	c.mu.Lock()
	defer c.mu.Unlock()
	return timer.Moment{Wall: c.wall()}
}

func (c *setClock) wall() time.Time {
	return c.stood.Add(time.Duration(float64(time.Since(c.set)) * c.speed))
}

// pace gives how fast it runs, in whole times.
func (c *setClock) pace() int {
	c.mu.Lock()
	defer c.mu.Unlock()
	return max(1, int(c.speed))
}

// turn goes to the next speed; the time does not jump.
func (c *setClock) turn() {
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

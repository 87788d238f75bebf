package clock

import (
	"testing"
	"time"
)

// TestTurn: the clock runs as fast as it says, goes through the speeds that are
// offered, and does not jump when it is turned.
func TestTurn(t *testing.T) {
	stood := time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC)
	began := time.Now().Add(-10 * time.Second) // Ten seconds ago it was set.
	c := Set(stood, began, 1)
	for i, pace := range []int{1, 10, 60, 1} {
		if got := c.Pace(); got != pace {
			t.Errorf("turn %d: it runs %d times as fast, want %d", i, got, pace)
		}
		before := c.Now().Wall
		c.Turn()
		if jump := c.Now().Wall.Sub(before); jump < 0 || jump > 5*time.Second {
			t.Errorf("turn %d: it jumps by %v", i, jump)
		}
	}
	fast := Set(stood, began, 60).Now()
	if ran := fast.Wall.Sub(stood); ran < 10*time.Minute || ran > 20*time.Minute {
		t.Errorf("ten seconds, sixty times as fast, are %v", ran)
	}
	if fast.Boot != "" {
		t.Errorf("a clock that was set knows a boot: %q", fast.Boot)
	}
}

func TestMachine(t *testing.T) {
	one := Machine()
	two := Machine()
	if d := two.Wall.Sub(one.Wall); d < 0 || d > time.Minute || time.Since(one.Wall) > time.Minute {
		t.Errorf("%v, then %v", one.Wall, two.Wall)
	}
	if one.Boot != two.Boot || two.SinceBoot < one.SinceBoot || one.Boot == "" && one.SinceBoot != 0 {
		t.Errorf("boot %q at %v, then %q at %v", one.Boot, one.SinceBoot, two.Boot, two.SinceBoot)
	}
}

// TestForward: a clock is put forward by what is said, and never back.
func TestForward(t *testing.T) {
	stood := time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC)
	c := Set(stood, time.Now(), 1)
	c.Forward(-time.Hour)
	c.Forward(24 * time.Hour)
	if gone := c.Now().Wall.Sub(stood); gone < 24*time.Hour || gone > 24*time.Hour+5*time.Second {
		t.Errorf("it was put forward by %v", gone)
	}
}

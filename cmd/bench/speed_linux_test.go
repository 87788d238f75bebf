package main

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"bench/internal/console"
)

// BenchmarkKeyToFrame measures from a key to what it changes on the screen: an
// arrow, which keeps nothing, and a weighing, which is on disk before it shows.
func BenchmarkKeyToFrame(b *testing.B) {
	b.Run("arrow", func(b *testing.B) {
		m := sits(b, b.TempDir(), dawn).begins("260302A")
		now, then := m.plan.Stages[0].Tasks[0].Title, m.plan.Stages[0].Tasks[1].Title
		frames(b, m.Console, func(n int) (keys, shown string) {
			if n%2 == 0 {
				return "j", "│ " + start(then)
			}
			return "k", "│ " + start(now)
		})
	})
	b.Run("weighing", func(b *testing.B) {
		m := sits(b, b.TempDir(), dawn).begins("260302A")
		m.works("sea/water")
		frames(b, m.Console, func(n int) (keys, shown string) {
			return "0.1+", fmt.Sprintf("in already %d.%d of", (n+1)/10, (n+1)%10)
		})
	})
}

// frames times each key, and reports the slowest of a hundred.
func frames(b *testing.B, c *console.Console, press func(n int) (keys, shown string)) {
	b.Helper()
	var times []time.Duration
	for n := 0; b.Loop(); n++ {
		keys, shown := press(n)
		began := time.Now()
		c.Send(keys)
		c.Wait(shown, func() bool { return console.Holds(c.Screen(), shown) })
		times = append(times, time.Since(began))
	}
	slices.Sort(times)
	b.ReportMetric(float64(times[len(times)*99/100].Microseconds())/1000, "p99-ms")
	b.ReportMetric(float64(times[len(times)/2].Microseconds())/1000, "p50-ms")
}

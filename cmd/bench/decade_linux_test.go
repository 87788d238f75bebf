package main

import (
	"fmt"
	"os"
	"slices"
	"testing"
	"time"

	"golang.org/x/sys/unix"

	"bench/internal/console"
	"bench/internal/journal"
)

// BenchmarkDecade measures what grows with history. BENCH_DECADE names the
// folder of a store that internal/decade made; docs/speed.md says how.
func BenchmarkDecade(b *testing.B) {
	home := os.Getenv("BENCH_DECADE")
	if home == "" {
		b.Skip("BENCH_DECADE names no folder")
	}
	at := dawn.AddDate(0, 0, 2)
	b.Run("start", func(b *testing.B) {
		each(b, func() {
			m := &maker{Console: console.Start(b, program(b, home, clocked(at)...), 80, 24), t: b, home: home, speed: haste}
			m.Sees("Under way", "Lighthouse at dusk")
			m.Kill()
		})
	})
	b.Run("key", func(b *testing.B) {
		m := sits(b, home, at)
		n := 0
		each(b, func() {
			shown := m.Screen()
			m.Send([]string{down, up}[n%2])
			n++
			m.Wait("next frame", func() bool { return m.Screen() != shown })
		})
	})
	b.Run("rack", func(b *testing.B) {
		m := sits(b, home, at)
		each(b, func() {
			m.Wait("closed batches", func() bool {
				shown := m.Screen()
				if !console.Holds(shown, "Curing rack") {
					m.Send("r") // It is not taken while the first screen is being read.
					return false
				}
				return !console.Holds(shown, "reading…")
			})
			m.rests()
			m.Send(esc)
			m.Sees("Recipes")
		})
	})
	b.Run("idle", func(b *testing.B) { idle(b, sits(b, home, at)) })
	for name, args := range map[string][]string{
		"due": {"due"}, "record": {"record"}, "verify": {"verify"}, "find": {"find"}, "find-lot": {"find", "--lot", "OO-1180"},
		"find-recipe": {"find", "--recipe", "light"}, "find-note": {"find", "--note", "fog"}, "version": {"--version"},
	} {
		b.Run(name, func(b *testing.B) { costs(b, home, args) })
	}
	b.Run("backup", func(b *testing.B) {
		n := 0
		dir := b.TempDir()
		each(b, func() { n++; printed(b, home, "backup", fmt.Sprintf("%s/%d.db", dir, n)) })
	})
	store, err := journal.Open(home, journal.Options{ReadOnly: true})
	if err != nil {
		b.Fatal(err)
	}
	defer store.Close()
	for name, ask := range map[string]func() (int, error){
		"list":   func() (int, error) { heads, err := store.Batches(); return len(heads), err },
		"search": func() (int, error) { codes, err := store.Search("lot:OO-1180"); return len(codes), err },
	} {
		b.Run(name, func(b *testing.B) {
			found := 0
			each(b, func() {
				if found, err = ask(); err != nil {
					b.Fatal(err)
				}
			})
			b.ReportMetric(float64(found), "found")
		})
	}
}

// costs times a command, and reports what it cost the processor: that says the
// same beside other work.
func costs(b *testing.B, home string, args []string) {
	b.Helper()
	var cpu time.Duration
	n := 0
	each(b, func() {
		cmd := program(b, home, args...)
		_ = cmd.Run() // One that finds nothing says so by its status.
		cpu += cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime()
		n++
	})
	b.ReportMetric(float64(cpu.Microseconds())/1000/float64(n), "cpu-ms")
}

// each times what it does, and reports the middle of it.
func each(b *testing.B, do func()) {
	b.Helper()
	var times []time.Duration
	for b.Loop() {
		began := time.Now()
		do()
		times = append(times, time.Since(began))
	}
	slices.Sort(times)
	b.ReportMetric(float64(times[len(times)/2].Microseconds())/1000, "p50-ms")
	b.ReportMetric(float64(times[len(times)*99/100].Microseconds())/1000, "p99-ms")
}

// idle reports what a second at rest costs the processor.
func idle(b *testing.B, m *maker) {
	b.Helper()
	used := func() time.Duration {
		var now unix.Timespec
		clock := int32(^m.PID()<<3 | 2) // The processor time of another process: clock_getcpuclockid(3).
		if err := unix.ClockGettime(clock, &now); err != nil {
			b.Skip(err)
		}
		return time.Duration(now.Nano())
	}
	for b.Loop() {
		before := used()
		time.Sleep(2 * time.Second)
		b.ReportMetric((used()-before).Seconds()*1000/2, "ms/s")
	}
}

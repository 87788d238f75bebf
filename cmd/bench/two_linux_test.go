package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"bench/internal/console"
)

// TestTwoAtOnce lets two programs work in one store: on two batches, but never
// on one.
func TestTwoAtOnce(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	first := sits(t, home, dawn).begins("260302A")
	first.works("set out/scales")

	second := sits(t, home, dawn)
	second.Sees(fmt.Sprintf("! process %d has it open since 2 Mar", first.PID()), "enter read along")
	second.begins("260302B")
	second.works("set out/scales")
	first.works("set out/water")
	second.agrees()
	first.agrees()

	first.Kill()
	third := sits(t, home, dawn.Add(time.Hour))
	third.Sees("260302B", "260302A")
	third.Sees(fmt.Sprintf("! process %d has it open", second.PID()), "the program ended without closing it; ")
	third.reopens("260302A") // What the killed one held is free at once.
	third.works("sea/water")
	third.agrees()
	if third.code != first.code || len(third.state.Entries) <= len(first.state.Entries) {
		t.Errorf("went on with %s at fact %d", third.code, len(third.state.Entries))
	}
}

// TestReadsAlong reads a batch along in a second program while the first works
// on, and takes it over once the first has left.
func TestReadsAlong(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	first := sits(t, home, dawn).begins("260302A")
	first.works("set out/scales")
	second := sits(t, home, dawn)
	second.Send(enter)
	second.Sees("batch 260302A", fmt.Sprintf("Reading along: process %d has it open", first.PID()))
	second.rests()
	for n := range 3 {
		task, _ := first.next()
		first.says(first.keysFor(task))
		next, _ := first.next()
		second.seesTask(next) // It follows by itself.
		second.Send([]string{" ", "n", "u"}[n])
		second.Wait("word that it reads along", func() bool { return console.Holds(second.Screen(), "Reading along: process") })
		first.agrees()
	}
	first.Send("q")
	first.Exit()
	second.Sees("it has been let go. Enter takes it over here.")
	second.rests()
	second.Send(neutral + enter)
	second.Sees("Where you were")
	second.goesOn("260302A").works("sea/water")
	second.agrees()
}

// TestLeftElsewhere opens a batch that another machine left open: at the second
// time of asking, and not before.
func TestLeftElsewhere(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	first := sits(t, home, dawn).begins("260302A")
	first.works("set out/scales")
	first.Kill()
	words := `{"pid":12,"host":"quay","since":"2026-03-02T08:00:00Z"}`
	if err := os.WriteFile(filepath.Join(home, "hold", "260302A.lock"), []byte(words), 0o600); err != nil {
		t.Fatal(err)
	}
	second := sits(t, home, dawn)
	second.Sees("left open on quay")
	second.Send(enter)
	second.Sees("left open on quay (process 12, 2 Mar 08:00):", "if nothing runs there, open it again to take it over")
	second.rests()
	second.Send(neutral)
	second.reopens("260302A").works("sea/water")
	second.agrees()
}

// TestStartsTogether begins a batch in eight programs at the same time, in a
// folder that is not there yet. Each gets a batch of its own. BENCH_RACES says how
// many races of two programs follow (`make races`).
func TestStartsTogether(t *testing.T) {
	t.Parallel()
	startsTogether(t, 8)
	races, err := strconv.Atoi(os.Getenv("BENCH_RACES"))
	if err != nil {
		races = 2
	}
	for range races {
		startsTogether(t, 2)
	}
	t.Logf("%d races of two programs", races)
}

func startsTogether(t *testing.T, programs int) {
	t.Helper()
	home := t.TempDir() + "/harbour"
	var all []*console.Console
	for range programs {
		all = append(all, console.Start(t, program(t, home, clocked(dawn)...), 80, 24))
	}
	for _, keys := range []string{enter, up + enter} {
		for _, c := range all {
			c.Wait("list or plan", func() bool {
				return console.Holds(c.Screen(), "enter set up") || console.Holds(c.Screen(), "enter start the batch")
			})
		}
		time.Sleep(time.Duration(float64(rest)/haste) + time.Millisecond)
		for _, c := range all {
			c.Send(keys)
		}
		if keys == enter {
			for _, c := range all {
				c.Sees("enter start the batch")
			}
		}
	}
	codes := map[string]bool{}
	for _, c := range all {
		c.Sees("stage 1 of")
		for n := range all {
			if code := dawn.Format("060102") + string(rune('A'+n)); console.Holds(c.Screen(), "batch "+code) {
				codes[code] = true
			}
		}
	}
	if len(codes) != len(all) {
		t.Errorf("%d programs began the batches %v", len(all), codes)
	}
	for code := range codes {
		if n := len(kept(t, home, code)); n != 1 {
			t.Errorf("batch %s has %d facts", code, n)
		}
	}
}

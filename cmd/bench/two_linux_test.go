package main

import (
	"fmt"
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
	second.Send(enter)
	second.Sees(fmt.Sprintf("Batch 260302A was not opened: process %d has it open since 2 Mar 09:00", first.PID()))
	second.SeesNot("Where you were")
	second.begins("260302B")
	second.works("set out/scales")
	first.works("set out/water")
	second.agrees()
	first.agrees()

	first.Kill()
	third := sits(t, home, dawn.Add(time.Hour))
	third.Sees("260302B", "260302A")
	third.Send(enter) // The newest, which the second has.
	third.Sees(fmt.Sprintf("260302B was not opened: process %d has it open", second.PID()))
	third.reopens("260302A") // What the killed one held is free at once.
	third.works("sea/water")
	third.agrees()
	if third.code != first.code || len(third.state.Entries) <= len(first.state.Entries) {
		t.Errorf("went on with %s at fact %d", third.code, len(third.state.Entries))
	}
}

// TestStartsTogether begins a batch in eight programs at the same time, in a
// folder that is not there yet. Each gets a batch of its own.
func TestStartsTogether(t *testing.T) {
	t.Parallel()
	home := t.TempDir() + "/harbour"
	var all []*console.Console
	for range 8 {
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
			if code := codeOf(dawn, n); console.Holds(c.Screen(), "batch "+code) {
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

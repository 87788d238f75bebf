package main

import (
	"fmt"
	"strings"
	"testing"

	"bench/internal/ui/ink"
)

// clicks presses and lets go of the left button where a text stands, as a
// terminal reports it (DEC private modes 1000 and 1006).
func (m *maker) clicks(text string) {
	m.t.Helper()
	lines := strings.Split(m.Screen(), "\n")
	for y := len(lines) - 1; y >= 0; y-- {
		if before, _, found := strings.Cut(lines[y], text); found {
			x := ink.Width(before) + 1
			m.Send(fmt.Sprintf("\x1b[<0;%d;%dM\x1b[<0;%d;%dm", x, y+1, x, y+1))
			return
		}
	}
	m.t.Fatalf("there is no %q to click on:\n%s", text, m.Screen())
}

// TestMouse works by clicks where the mouse is switched on, and asks a terminal for
// none where it is not.
func TestMouse(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	m := sits(t, home, dawn)
	m.Send("q")
	m.Exit()
	if strings.Contains(m.Written(), "\x1b[?100") {
		t.Error("the terminal was asked for the mouse")
	}

	m = sitsAt(t, home, program(t, home, append(clocked(dawn), "--mouse")...))
	m.Wait("mouse", func() bool { return strings.Contains(m.Written(), "\x1b[?1000h\x1b[?1006h") })
	m.clicks("Tide lines")
	m.Sees("▶ Tide lines")
	m.clicks("Lighthouse at dusk")
	m.Sees("▶ Lighthouse at dusk")
	m.rests()
	m.clicks("set up")
	m.Sees("enter start the batch")
	m.waits(look) // A second click on the same key at once counts as one.
	m.clicks("start the batch")
	m.Sees("batch 260302A", "stage 1 of")
	m.rests()
	m.knows("260302A")
	m.waits(look)
	m.clicks("done")
	m.take(m.ticked(m.plan.Stages[0].Tasks[0].ID))
	m.Wait("tick", func() bool { return len(kept(t, home, m.code)) == 2 })
	m.agrees()
	m.Send("q")
	m.Exit()
	m.Restored()
	for _, pair := range [][2]string{{"\x1b[?1000h", "\x1b[?1000l"}, {"\x1b[?1006h", "\x1b[?1006l"}} {
		if on, off := strings.Count(m.Written(), pair[0]), strings.Count(m.Written(), pair[1]); on != 1 || off != 1 {
			t.Errorf("%q was written %d times, %q %d times", pair[0], on, pair[1], off)
		}
	}
}

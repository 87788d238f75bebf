package draw

import (
	"strings"
	"testing"

	"github.com/creack/pty"
)

// open returns a terminal of ours on a pseudo-terminal, and a function that reads
// what was written to it so far.
func open(t *testing.T, name string, size *pty.Winsize) (*Terminal, func() string) {
	t.Helper()
	master, tty, err := pty.Open()
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		_ = master.Close()
		_ = tty.Close()
	})
	if err := pty.Setsize(tty, size); err != nil {
		t.Fatal(err)
	}
	terminal, err := Open(Options{In: tty, Out: tty, Getenv: func(key string) string {
		return map[string]string{"TERM": name}[key]
	}})
	if err != nil {
		t.Fatal(err)
	}
	buf := make([]byte, 64<<10)
	return terminal, func() string {
		t.Helper()
		const end = "<end>" // What was written before it has arrived.
		if _, err := tty.WriteString(end); err != nil {
			t.Fatal(err)
		}
		var got string
		for !strings.HasSuffix(got, end) {
			n, err := master.Read(buf)
			if err != nil {
				t.Fatal(err)
			}
			got += string(buf[:n])
		}
		return strings.TrimSuffix(got, end)
	}
}

func draws(t *testing.T, terminal *Terminal, frame string) {
	t.Helper()
	if err := terminal.Draw(frame); err != nil {
		t.Error(err)
	}
}

func TestTerminalDrawsOnlyWhileHeld(t *testing.T) {
	terminal, written := open(t, "xterm-256color", &pty.Winsize{Cols: 30, Rows: 5})
	if width, height := terminal.Size(); width != 30 || height != 5 {
		t.Errorf("size %dx%d", width, height)
	}
	draws(t, terminal, "lye\nwater")
	whole := frameBegin + "\x1b[m\x1b[2J\x1b[1Hlye\v\rwater" + frameEnd
	if got := written(); got != enterModes+whole {
		t.Errorf("first %q", got)
	}
	draws(t, terminal, "lye\nWater")
	if got := written(); got != "\x1b[2HW" {
		t.Errorf("change %q", got)
	}
	terminal.Invalidate()
	draws(t, terminal, "lye\nwater")
	if got := written(); got != whole {
		t.Errorf("invalidated %q", got)
	}
	for range 2 {
		if err := terminal.Release(); err != nil {
			t.Error(err)
		}
	}
	draws(t, terminal, "not now")
	if got := written(); got != frameEnd+leaveModes {
		t.Errorf("released %q", got)
	}
	if err := terminal.Acquire(); err != nil {
		t.Error(err)
	}
	draws(t, terminal, "lye\nwater")
	if got := written(); got != enterModes+whole {
		t.Errorf("acquired %q", got)
	}
	for range 2 {
		if err := terminal.Close(); err != nil {
			t.Error(err)
		}
	}
	if err := terminal.Acquire(); err != nil {
		t.Error(err)
	}
	draws(t, terminal, "too late")
	if got := written(); got != frameEnd+leaveModes {
		t.Errorf("closed %q", got)
	}
}

func TestTerminalOnAConsole(t *testing.T) {
	terminal, written := open(t, "linux", &pty.Winsize{})
	if width, height := terminal.Size(); width != 80 || height != 24 {
		t.Errorf("size %dx%d where none is known", width, height)
	}
	draws(t, terminal, "lye\nwater")
	if err := terminal.Close(); err != nil {
		t.Error(err)
	}
	if got := written(); strings.Contains(got, "?2026") {
		t.Errorf("marks in %q", got)
	}
}

package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"

	"github.com/creack/pty"
	"github.com/gofrs/flock"

	"bench/internal/console"
)

// TestStoppedAndContinued stops the program from outside in the middle of a
// number, as a shell's job control does, and continues it: the screen comes
// back, what was typed waits, and in the end the terminal is as it was.
func TestStoppedAndContinued(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	cmd := program(t, home, clocked(dawn)...)
	shell := exec.Command("sh", append([]string{"-mc", `"$0" "$@"; read -r go; fg >/dev/null`, cmd.Path}, cmd.Args[1:]...)...)
	shell.Env = cmd.Env
	m := sitsAt(t, home, shell).begins("260302A")
	m.works("sea/water")
	task, _ := m.next()
	keys, f := m.keysFor(task)
	if !task.Numeric() {
		t.Fatalf("%s is no weight", task.ID)
	}
	m.looks(task)
	m.Send("21")
	m.Sees("typed", "21")
	pid := childOf(t, m.PID())
	m.ends(pid, syscall.SIGTSTP, "T")
	m.Spoil()
	m.Wait("empty screen", m.blank)
	m.Send("\n") // The shell brings it to the foreground.
	m.Sees("batch 260302A", "typed", "21")
	m.rests()
	m.Send(neutral + neutral)
	m.says(keys, f)
	m.agrees()
	m.leaves()
	m.Settled()
	written := m.Written()
	for _, mode := range []string{"1049", "2004"} {
		if strings.LastIndex(written, "\x1b[?"+mode+"h") > strings.LastIndex(written, "\x1b[?"+mode+"l") {
			t.Errorf("mode %s is left on", mode)
		}
	}
}

// ends sends a signal to a process and waits until it is in that state (proc(5)).
func (m *maker) ends(pid int, sig syscall.Signal, state string) {
	m.t.Helper()
	if err := syscall.Kill(pid, sig); err != nil {
		m.t.Fatal(err)
	}
	m.Wait("state "+state, func() bool {
		stat, err := os.ReadFile(fmt.Sprintf("/proc/%d/stat", pid))
		_, after, ok := strings.Cut(string(stat), ") ")
		return err == nil && ok && strings.HasPrefix(after, state)
	})
}

// childOf gives the only child of a process.
func childOf(t *testing.T, pid int) int {
	t.Helper()
	text, err := os.ReadFile(fmt.Sprintf("/proc/%d/task/%d/children", pid, pid))
	if err != nil {
		t.Skip(err) // The kernel may be built without it.
	}
	child, err := strconv.Atoi(strings.TrimSpace(string(text)))
	if err != nil {
		t.Fatalf("children %q", text)
	}
	return child
}

// TestInputGone takes away the terminal that keys come from, while the one that
// is drawn on stays: the facts are kept and that one is given back.
func TestInputGone(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	keyboard, tty, err := pty.Open()
	if err != nil {
		t.Fatal(err)
	}
	cmd := program(t, home, clocked(dawn)...)
	shell := exec.Command("sh", append([]string{"-c", `exec "$0" "$@" <` + tty.Name(), cmd.Path}, cmd.Args[1:]...)...)
	shell.Env = cmd.Env
	c := console.Start(t, shell, 80, 24)
	c.Sees("Recipes", "Tide lines")
	_ = tty.Close()
	_ = keyboard.Close()
	c.Exit()
	c.Restored()
}

// TestSlowStart waits for another program that has the store for itself: a start
// does not look dead meanwhile, and goes on once it may.
func TestSlowStart(t *testing.T) {
	t.Parallel()
	home := t.TempDir()
	if err := os.Mkdir(filepath.Join(home, "hold"), 0o700); err != nil {
		t.Fatal(err)
	}
	lock := flock.New(filepath.Join(home, "hold", "store"))
	if ok, err := lock.TryLock(); !ok || err != nil {
		t.Fatal(ok, err)
	}
	c := console.Start(t, program(t, home, clocked(dawn)...), 80, 24)
	c.Sees("bench: the store is slow to open")
	if err := lock.Unlock(); err != nil {
		t.Fatal(err)
	}
	c.Sees("Recipes", "Tide lines")
	c.SeesNot("slow to open")
}

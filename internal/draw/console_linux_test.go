package draw

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/charmbracelet/x/term"
	"github.com/charmbracelet/x/vt"
	"github.com/creack/pty"
)

// console is a real pseudo-terminal with an emulator on its other side.
type console struct {
	t      *testing.T
	cmd    *exec.Cmd
	master *os.File
	tty    *os.File
	modes  *term.State // Before the program started.
	record string

	mu     sync.Mutex
	screen *vt.Emulator
	raw    strings.Builder
}

func start(t *testing.T, name string) *console {
	t.Helper()
	master, tty, err := pty.Open()
	if err != nil {
		t.Fatal(err)
	}
	// The library leaves it blocking, and a blocked read would keep it open.
	fd, err := syscall.Dup(int(master.Fd()))
	if err == nil {
		err = errors.Join(syscall.SetNonblock(fd, true), master.Close())
	}
	if err != nil {
		t.Fatal(err)
	}
	syscall.CloseOnExec(fd)
	master = os.NewFile(uintptr(fd), "master")
	c := &console{t: t, cmd: play(name), master: master, tty: tty, screen: vt.NewEmulator(60, 12)}
	c.record = filepath.Join(t.TempDir(), "record")
	c.setSize(60, 12)
	if c.modes, err = term.GetState(tty.Fd()); err != nil {
		t.Fatal(err)
	}
	c.cmd.Env = append(c.cmd.Env, "BENCH_DRAW_TEST_RECORD="+c.record)
	c.cmd.Stdin, c.cmd.Stdout, c.cmd.Stderr = tty, tty, tty
	c.cmd.SysProcAttr = &syscall.SysProcAttr{Setsid: true, Setctty: true}
	if err := c.cmd.Start(); err != nil {
		t.Fatal(err)
	}
	go c.listen()
	t.Cleanup(func() {
		_ = c.cmd.Process.Kill()
		c.hangUp()
	})
	return c
}

// hangUp takes the terminal away.
func (c *console) hangUp() {
	_ = c.tty.Close()
	_ = c.master.Close()
}

func (c *console) listen() {
	buf := make([]byte, 4096)
	for {
		n, err := c.master.Read(buf)
		c.mu.Lock()
		c.raw.Write(buf[:n])
		_, _ = c.screen.Write(buf[:n])
		c.mu.Unlock()
		if err != nil {
			return
		}
	}
}

func (c *console) setSize(width, height int) {
	c.t.Helper()
	c.mu.Lock()
	defer c.mu.Unlock()
	c.screen.Resize(width, height)
	if err := pty.Setsize(c.tty, &pty.Winsize{Cols: uint16(width), Rows: uint16(height)}); err != nil {
		c.t.Fatal(err)
	}
}

func (c *console) send(keys string) {
	c.t.Helper()
	if _, err := c.master.WriteString(keys); err != nil {
		c.t.Fatal(err)
	}
}

func (c *console) written() string {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.raw.String()
}

func (c *console) shown() string {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.screen.String()
}

// sees waits for texts to be on the screen together.
func (c *console) sees(texts ...string) {
	c.t.Helper()
	c.wait(fmt.Sprintf("%q on the screen", texts), func() bool {
		shown := c.shown()
		for _, text := range texts {
			if !strings.Contains(shown, text) {
				return false
			}
		}
		return true
	})
}

func (c *console) wait(what string, holds func() bool) {
	c.t.Helper()
	for deadline := time.Now().Add(10 * time.Second); !holds(); time.Sleep(2 * time.Millisecond) {
		if time.Now().After(deadline) {
			c.t.Fatalf("no %s; screen:\n%s\nwritten: %q", what, c.shown(), c.written())
		}
	}
}

// ends waits for the program to end with a status, and for its last words.
func (c *console) ends(status int) {
	c.t.Helper()
	done := make(chan struct{})
	go func() {
		defer close(done)
		_ = c.cmd.Wait()
	}()
	select {
	case <-done:
	case <-time.After(20 * time.Second):
		c.t.Fatalf("still running; screen:\n%s", c.shown())
	}
	if got := c.cmd.ProcessState.ExitCode(); got != status {
		c.t.Errorf("exit status %d, want %d; screen:\n%s", got, status, c.shown())
	}
	const mark = "<all read>"
	if _, err := c.tty.WriteString(mark); err == nil { // Else it is gone.
		c.wait(mark, func() bool { return strings.HasSuffix(c.written(), mark) })
	}
}

// settled checks that the terminal's settings are as they were.
func (c *console) settled() {
	c.t.Helper()
	modes, err := term.GetState(c.tty.Fd())
	if err != nil {
		c.t.Fatal(err)
	}
	if !reflect.DeepEqual(modes, c.modes) {
		c.t.Errorf("terminal settings %+v, want %+v", modes, c.modes)
	}
}

// restored checks that the terminal is as it was: every mode that was switched
// is switched back, as often and last.
func (c *console) restored() {
	c.t.Helper()
	c.settled()
	written := c.written()
	for _, pair := range [][2]string{
		{"\x1b[?1049h", "\x1b[?1049l"},
		{"\x1b[?25l", "\x1b[?25h"},
		{"\x1b[?2004h", "\x1b[?2004l"},
		{"\x1b[?7l", "\x1b[?7h"},
	} {
		on, off := strings.Count(written, pair[0]), strings.Count(written, pair[1])
		if on == 0 || on != off || strings.LastIndex(written, pair[0]) > strings.LastIndex(written, pair[1]) {
			c.t.Errorf("%q %d times, %q %d times in %q", pair[0], on, pair[1], off, written)
		}
	}
	if strings.LastIndex(written, frameBegin) > strings.LastIndex(written, frameEnd) {
		c.t.Errorf("left within a frame: %q", written)
	}
}

// askedNothing checks that no query went out (DA, DSR, OSC and DCS requests).
func (c *console) askedNothing() {
	c.t.Helper()
	for _, query := range []string{"\x1b]", "\x1bP", "\x1b[c", "\x1b[0c", "\x1b[>c", "\x1b[5n", "\x1b[6n", "$p", "\x1b[>q"} {
		if written := c.written(); strings.Contains(written, query) {
			c.t.Errorf("%q in %q", query, written)
		}
	}
}

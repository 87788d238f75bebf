//go:build linux

package console

import (
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/charmbracelet/x/term"
	"github.com/charmbracelet/x/vt"
	"github.com/creack/pty"
)

// patience is how long a program may take to show what is waited for, or to end. It
// is far more than any program needs: neither a busy machine nor a disk that stands
// still for half a minute, as a shared one may, fails a test. What waits for ever does.
const patience = 2 * time.Minute

// Console is a program on a pseudo-terminal. Its methods are for one goroutine.
type Console struct {
	tb     testing.TB
	cmd    *exec.Cmd
	master *os.File
	tty    *os.File
	modes  *term.State // modes are the terminal's settings before the program began.
	ended  chan struct{}
	drains int
	// asked is the screen at the last keys; nil once something of their effect was seen.
	asked *string

	mu      sync.Mutex
	screen  *vt.Emulator
	raw     strings.Builder
	changed chan struct{} // changed is closed at the next change of the screen.
}

// Start runs the command on a new terminal of so many columns and rows. What
// still runs when the test ends is killed.
func Start(tb testing.TB, cmd *exec.Cmd, columns, rows int) *Console {
	tb.Helper()
	c := &Console{
		tb: tb, cmd: cmd, ended: make(chan struct{}), screen: vt.NewEmulator(columns, rows), changed: make(chan struct{}),
	}
	var err error
	if c.master, c.tty, err = open(); err != nil {
		tb.Fatal(err)
	}
	c.Resize(columns, rows)
	if c.modes, err = term.GetState(c.tty.Fd()); err != nil {
		tb.Fatal(err)
	}
	cmd.Stdin, cmd.Stdout, cmd.Stderr = c.tty, c.tty, c.tty
	if cmd.SysProcAttr == nil {
		cmd.SysProcAttr = &syscall.SysProcAttr{}
	}
	cmd.SysProcAttr.Setsid, cmd.SysProcAttr.Setctty = true, true
	if err := cmd.Start(); err != nil {
		tb.Fatal(err)
	}
	go func() {
		defer close(c.ended)
		_ = cmd.Wait() // The tests look at the state that it leaves.
	}()
	go func() { _, _ = io.Copy(io.Discard, c.screen) }() // The emulator's answers go nowhere.
	go c.listen()
	tb.Cleanup(func() {
		_ = cmd.Process.Kill()
		<-c.ended
		c.HangUp()
		if answers, ok := c.screen.InputPipe().(io.Closer); ok {
			_ = answers.Close() // Its reader ends; closing the emulator itself would race with it.
		}
	})
	return c
}

// open makes a pseudo-terminal whose master can be closed while it is read.
func open() (master, tty *os.File, err error) {
	master, tty, err = pty.Open()
	if err != nil {
		return nil, nil, err
	}
	// The library leaves it blocking, and a blocked read would keep it open.
	fd, err := syscall.Dup(int(master.Fd()))
	if err == nil {
		err = errors.Join(syscall.SetNonblock(fd, true), master.Close())
	}
	if err != nil {
		return nil, nil, errors.Join(err, tty.Close())
	}
	syscall.CloseOnExec(fd)
	return os.NewFile(uintptr(fd), "master"), tty, nil
}

func (c *Console) listen() {
	buf := make([]byte, 64<<10)
	for {
		n, err := c.master.Read(buf)
		c.mu.Lock()
		c.raw.Write(buf[:n])
		_, _ = c.screen.Write(buf[:n])
		close(c.changed)
		c.changed = make(chan struct{})
		c.mu.Unlock()
		if err != nil {
			return
		}
	}
}

// PID gives the program's process number.
func (c *Console) PID() int { return c.cmd.Process.Pid }

// Send types keys, all in one write.
func (c *Console) Send(keys string) {
	c.tb.Helper()
	asked := c.Screen()
	c.asked = &asked
	if _, err := c.master.WriteString(keys); err != nil {
		c.tb.Fatal(err)
	}
}

// Resize changes the size of the window.
func (c *Console) Resize(columns, rows int) {
	c.tb.Helper()
	c.asked = nil
	c.mu.Lock()
	defer c.mu.Unlock()
	c.screen.Resize(columns, rows)
	if err := pty.Setsize(c.tty, &pty.Winsize{Cols: uint16(columns), Rows: uint16(rows)}); err != nil {
		c.tb.Fatal(err)
	}
}

// Spoil clears the screen behind the program's back, as a terminal may when its
// size changes.
func (c *Console) Spoil() {
	c.tb.Helper()
	if _, err := c.tty.WriteString("\x1b[2J"); err != nil {
		c.tb.Fatal(err)
	}
}

// Signal sends a signal to the program.
func (c *Console) Signal(sig syscall.Signal) {
	c.tb.Helper()
	if err := c.cmd.Process.Signal(sig); err != nil {
		c.tb.Fatal(err)
	}
}

// HangUp takes the terminal away.
func (c *Console) HangUp() {
	_ = c.tty.Close()
	_ = c.master.Close()
}

// Kill ends the program as a power cut would (SIGKILL) and waits until all that
// it wrote has arrived on the screen.
func (c *Console) Kill() {
	c.tb.Helper()
	_ = c.cmd.Process.Kill() // It may have ended by itself.
	<-c.ended
	c.drain()
}

// Exit waits for the program to end and gives its exit status; -1 is a signal.
func (c *Console) Exit() int {
	c.tb.Helper()
	select {
	case <-c.ended:
	case <-time.After(patience):
		c.tb.Fatalf("still running; %s", c.stuck())
	}
	c.drain()
	return c.cmd.ProcessState.ExitCode()
}

// drain waits for all that was written by now. The mark is an application
// program command (ECMA-48, 8.3.2), which shows as nothing.
func (c *Console) drain() {
	c.tb.Helper()
	c.drains++
	mark := fmt.Sprintf("\x1b_drained %d\x1b\\", c.drains)
	if _, err := c.tty.WriteString(mark); err != nil {
		return // The terminal was taken away.
	}
	c.Wait("mark", func() bool { return strings.Contains(c.written(), mark) })
}

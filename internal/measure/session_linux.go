package main

import (
	"errors"
	"fmt"
	"image/color"
	"io"
	"os"
	"os/exec"
	"runtime"
	"slices"
	"strings"
	"syscall"
	"time"

	"github.com/charmbracelet/x/ansi"
	"github.com/charmbracelet/x/vt"
	"github.com/creack/pty"
)

const (
	columns, rows = 100, 30
	// patience is how long a screen may take before the run is given up.
	patience = time.Minute
)

// session is one program on a pseudo-terminal that answers as a real one does
// (x/vt). Its methods are for one goroutine.
type session struct {
	cmd    *exec.Cmd
	master *os.File
	began  time.Time
	chunks chan chunk
	ended  chan struct{}

	screen *vt.Emulator
	framed bool // framed says that a frame has begun and not ended.
	bytes  int
}

// chunk is what one read gave, stamped before anything was done with it.
type chunk struct {
	at   time.Time
	data []byte
}

func start(cmd *exec.Cmd) (*session, error) {
	master, tty, err := pty.Open()
	if err != nil {
		return nil, err
	}
	defer tty.Close() //nolint:errcheck // The program has its own.
	if err := pty.Setsize(tty, &pty.Winsize{Cols: columns, Rows: rows}); err != nil {
		return nil, errors.Join(err, master.Close())
	}
	s := &session{cmd: cmd, master: master, chunks: make(chan chunk, 4096), ended: make(chan struct{}), screen: vt.NewEmulator(columns, rows)}
	s.screen.SetDefaultBackgroundColor(color.Black) // So that it has an answer.
	s.screen.SetCallbacks(vt.Callbacks{
		EnableMode:  func(m ansi.Mode) { s.framed = s.framed || m == ansi.ModeSynchronizedOutput },
		DisableMode: func(m ansi.Mode) { s.framed = s.framed && m != ansi.ModeSynchronizedOutput },
	})
	cmd.Stdin, cmd.Stdout, cmd.Stderr = tty, tty, tty
	cmd.SysProcAttr = &syscall.SysProcAttr{Setsid: true, Setctty: true}
	go func() { _, _ = io.Copy(master, s.screen) }() // The emulator's answers.
	s.began = time.Now()
	if err := cmd.Start(); err != nil {
		return nil, errors.Join(err, master.Close(), s.screen.Close())
	}
	go s.listen()
	go func() {
		defer close(s.ended)
		_ = cmd.Wait() // How it ended is in its state.
	}()
	return s, nil
}

// listen does nothing but read and stamp, on a thread of its own, so that no
// work of the harness is in any figure.
func (s *session) listen() {
	runtime.LockOSThread()
	defer close(s.chunks)
	buf := make([]byte, 64<<10)
	for {
		n, err := s.master.Read(buf)
		if at := time.Now(); n > 0 {
			s.chunks <- chunk{at, slices.Clone(buf[:n])}
		}
		if err != nil {
			return
		}
	}
}

// next shows one chunk on the screen, if one comes in time.
func (s *session) next(deadline time.Time) (at time.Time, ok bool) {
	select {
	case c, open := <-s.chunks:
		if !open {
			return time.Time{}, false
		}
		s.bytes += len(c.data)
		_, _ = s.screen.Write(c.data) // It never fails.
		return c.at, true
	case <-time.After(time.Until(deadline)):
		return time.Time{}, false
	}
}

// await waits until the screen is as wanted, and says when the bytes came that
// made it so. Half a frame is none.
func (s *session) await(what string, wanted func(screen string) bool) (time.Time, error) {
	for deadline := time.Now().Add(patience); ; {
		at, ok := s.next(deadline)
		if !ok {
			return at, fmt.Errorf("no %s; the screen is\n%s", what, s.text())
		}
		if !s.framed && wanted(s.text()) {
			return at, nil
		}
	}
}

// rest lets the program be for a while, and shows what it writes.
func (s *session) rest(d time.Duration) {
	for deadline := time.Now().Add(d); ; {
		if _, ok := s.next(deadline); !ok {
			return
		}
	}
}

// text gives the screen line by line, without blanks at the ends.
func (s *session) text() string {
	lines := strings.Split(s.screen.String(), "\n")
	for i, l := range lines {
		lines[i] = strings.TrimRight(l, " \r")
	}
	return strings.Join(lines, "\n")
}

func (s *session) send(keys string) error {
	_, err := s.master.WriteString(keys)
	return err
}

// stop leaves the program by its own keys; what does not go is killed.
func (s *session) stop(keys string) error {
	err := s.send(keys)
	select {
	case <-s.ended:
	case <-time.After(patience):
		err = errors.Join(err, fmt.Errorf("%q did not end it; the screen is\n%s", keys, s.text()))
		_ = s.cmd.Process.Kill() // It may just have ended.
		<-s.ended
	}
	return errors.Join(err, s.master.Close(), s.screen.Close())
}

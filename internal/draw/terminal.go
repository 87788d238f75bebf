// Package draw shows the program on a terminal: it writes only what changed, at
// once, in one write per frame.
//
// Its rules: nothing wakes while nothing happens; the terminal is never asked
// anything; whatever was switched on is switched off again, however the program
// ends; and no control sequence from a frame reaches the terminal but SGR.
package draw

import (
	"errors"
	"fmt"
	"os"
	"sync"
	"time"

	"github.com/charmbracelet/x/term"

	_ "bench/internal/quiet" // Before Bubble Tea can ask the terminal its colours.
)

// ErrNotTerminal is returned where there is no terminal to draw on.
var ErrNotTerminal = errors.New("not a terminal")

// Modes (DEC private) while the screen is ours: alternate screen, no cursor,
// marked pastes, and no wrapping, so that no text can make the screen scroll; and
// text shown in the order it is sent in (BDSM, ECMA-48, 7.2.1), so that a name
// which runs from right to left turns no figures round.
const (
	enterModes = "\x1b[?1049h\x1b[?25l\x1b[?2004h\x1b[?7l\x1b[8l"
	// The screen is cleared for terminals that have no alternate one.
	leaveModes = "\x1b[m\x1b[H\x1b[2J\x1b[8h\x1b[?7h\x1b[?2004l\x1b[?25h\x1b[?1049l"
)

// Options tell what to draw on; zero fields mean those of the process.
type Options struct {
	In, Out *os.File
	Getenv  func(string) string
}

func (o Options) withDefaults() Options {
	if o.In == nil {
		o.In = os.Stdin
	}
	if o.Out == nil {
		o.Out = os.Stdout
	}
	if o.Getenv == nil {
		o.Getenv = os.Getenv
	}
	return o
}

// Terminal is the terminal while it is ours. Its methods may be called from
// several goroutines.
type Terminal struct {
	in, out *os.File

	notices string // notices is the format of a notice on the desktop, or "".

	mu     sync.Mutex
	held   bool        // The modes above are in force.
	closed bool        // For good.
	inWas  *term.State // Before raw mode.
	outWas *term.State
	screen screen
	mouse  bool      // mouse says that clicks are reported while the terminal is ours.
	rang   time.Time // rang is when the bell was rung last.
}

// Open takes the terminal: raw mode, alternate screen, no cursor, marked pastes.
// The error wraps ErrNotTerminal if input or output is none.
func Open(opt Options) (*Terminal, error) {
	t, err := find(opt.withDefaults())
	if err != nil {
		return nil, err
	}
	if err := t.Acquire(); err != nil {
		_ = t.Close() // The first error says more.
		return nil, err
	}
	return t, nil
}

// find gives the terminal as it is, not taken yet.
func find(opt Options) (*Terminal, error) {
	for _, file := range []*os.File{opt.In, opt.Out} {
		if !term.IsTerminal(file.Fd()) {
			return nil, fmt.Errorf("%s is %w: start in a terminal, without a pipe or redirection", file.Name(), ErrNotTerminal)
		}
	}
	t := &Terminal{in: opt.In, out: opt.Out, notices: noticesFor(opt.Getenv)}
	t.screen.wary = waryOf(opt.Getenv)
	switch opt.Getenv("TERM") {
	case "linux", "dumb": // These may print what they do not know.
	default:
		t.screen.marks = true
	}
	return t, nil
}

// Size returns the columns and rows that frames are cut to.
func (t *Terminal) Size() (width, height int) {
	t.mu.Lock()
	defer t.mu.Unlock()
	return t.screen.width, len(t.screen.rows)
}

// Draw shows a frame: lines joined by "\n", styled with SGR, each line by itself.
// It does nothing while the terminal is released.
func (t *Terminal) Draw(frame string) error {
	t.mu.Lock()
	defer t.mu.Unlock()
	if !t.held {
		return nil
	}
	if changes := t.screen.render(frame); len(changes) > 0 {
		if _, err := t.out.Write(changes); err != nil {
			t.screen.invalidate()
			return fmt.Errorf("drawing on the terminal: %w", err)
		}
	}
	t.screen.shown()
	return nil
}

// Prepare works out what Draw will have to write for a frame, if that is the one
// that comes next.
func (t *Terminal) Prepare(frame string) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.held {
		t.screen.render(frame)
	}
}

// Invalidate makes the next Draw repaint everything.
func (t *Terminal) Invalidate() {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.screen.invalidate()
}

// Release gives the terminal back as it was found, until Acquire.
func (t *Terminal) Release() error {
	t.mu.Lock()
	defer t.mu.Unlock()
	return t.release()
}

// Acquire takes the terminal again, measures it and makes the next Draw repaint
// everything. It may be called while the terminal is held, for when another
// program changed its modes.
func (t *Terminal) Acquire() error {
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.closed {
		return nil
	}
	outWas, err := term.GetState(t.out.Fd())
	if err != nil {
		return fmt.Errorf("reading the terminal's settings: %w", err)
	}
	inWas, err := term.MakeRaw(t.in.Fd())
	if err != nil {
		return fmt.Errorf("switching the terminal to raw mode: %w", err)
	}
	if !t.held {
		t.inWas, t.outWas, t.held = inWas, outWas, true
	}
	if err := enableSequences(t.out); err != nil {
		return fmt.Errorf("switching the terminal to control sequences: %w", err)
	}
	t.screen.resize(measure(t.out))
	enter := enterModes
	if t.mouse {
		enter += mouseOn
	}
	if _, err := t.out.WriteString(enter); err != nil {
		return fmt.Errorf("taking the terminal: %w", err)
	}
	return nil
}

// Close gives the terminal back for good. It may be called more than once.
func (t *Terminal) Close() error {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.closed = true
	return t.release()
}

func (t *Terminal) release() error {
	if !t.held {
		return nil
	}
	t.held = false
	leave := leaveModes
	if t.mouse {
		leave = mouseOff + leave
	}
	if t.screen.marks {
		leave = frameEnd + leave // A write may have failed within a frame.
	}
	_, err := t.out.WriteString(leave)
	err = errors.Join(err, term.Restore(t.in.Fd(), t.inWas), term.Restore(t.out.Fd(), t.outWas))
	if err != nil {
		return fmt.Errorf("restoring the terminal: %w", err)
	}
	return nil
}

func (t *Terminal) resize(width, height int) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if width != t.screen.width || height != len(t.screen.rows) {
		t.screen.resize(width, height)
	}
}

func (t *Terminal) holds() bool {
	t.mu.Lock()
	defer t.mu.Unlock()
	return t.held
}

// measure returns the size of a terminal, or the usual one if it has none, as
// some relayed terminals do.
func measure(out *os.File) (width, height int) {
	width, height, err := term.GetSize(out.Fd())
	if err != nil || width <= 0 || height <= 0 {
		return 80, 24
	}
	return width, height
}

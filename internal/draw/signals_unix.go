//go:build unix

package draw

import (
	"errors"
	"os"
	"syscall"
	"time"

	tea "github.com/charmbracelet/bubbletea"
)

func watched() []os.Signal {
	// SIGQUIT, too: Go's own answer to it leaves the terminal as it is; SIGABRT
	// still gives the traces.
	return []os.Signal{syscall.SIGINT, syscall.SIGTERM, syscall.SIGHUP, syscall.SIGQUIT, syscall.SIGWINCH, syscall.SIGCONT}
}

func (d *driver) handle(sig os.Signal) {
	switch sig {
	case syscall.SIGWINCH:
		if d.terminal.holds() {
			// Changes in quick succession come as one: the size may be what it was,
			// and the screen is not.
			d.terminal.Invalidate()
			d.sendSize()
		}
	case syscall.SIGCONT: // After a stop that did not go through suspend.
		if d.terminal.holds() {
			d.resume()
		}
	default:
		d.stop(errors.New(sig.String()))
	}
}

// suspend gives the terminal back and stops the process group, as ctrl+z does
// in other programs. SIGTSTP itself is not watched: once it was, the Go runtime
// could not let it stop the process any more.
func (d *driver) suspend() {
	if err := d.terminal.Release(); err != nil {
		d.stop(err)
		return
	}
	_ = syscall.Kill(0, syscall.SIGTSTP) // To our own group: cannot fail.
	d.waitForContinue()
	d.resume()
}

// waitForContinue returns when the process runs again. Where no shell could
// continue it, the kernel does not stop it at all; then it returns soon.
func (d *driver) waitForContinue() {
	notStopped := time.After(200 * time.Millisecond) // The kernel does not tell.
	for {
		select {
		case <-notStopped:
			return
		case sig := <-d.signals:
			if sig == syscall.SIGCONT {
				return
			}
			d.handle(sig) // A shell that ends hangs up and continues us.
		}
	}
}

func (d *driver) resume() {
	if err := d.terminal.Acquire(); err != nil {
		d.stop(err)
		return
	}
	d.sendSize()
	d.program.Send(tea.ResumeMsg{})
}

// enableSequences is for Windows; other terminals need no asking.
func enableSequences(*os.File) error { return nil }

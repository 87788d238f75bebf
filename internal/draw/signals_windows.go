package draw

import (
	"errors"
	"os"
	"syscall"

	"golang.org/x/sys/windows"
)

// watched: closing the console window arrives as SIGTERM. A change of size
// arrives as input, which Bubble Tea reads.
func watched() []os.Signal { return []os.Signal{os.Interrupt, syscall.SIGTERM} }

func (d *driver) handle(sig os.Signal) { d.stop(errors.New(sig.String())) }

// suspend does nothing: there is nothing like it here.
func (d *driver) suspend() {}

// enableSequences makes the console understand control sequences.
func enableSequences(out *os.File) error {
	var mode uint32
	console := windows.Handle(out.Fd())
	if err := windows.GetConsoleMode(console, &mode); err != nil {
		return err
	}
	return windows.SetConsoleMode(console, mode|windows.ENABLE_VIRTUAL_TERMINAL_PROCESSING|windows.DISABLE_NEWLINE_AUTO_RETURN)
}

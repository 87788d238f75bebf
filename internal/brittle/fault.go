package brittle

import (
	"os"
	"syscall"
)

// Fault lets N changes of the disk pass and refuses the next one, or all that
// follow if it Stays, with the error the system would give.
type Fault struct {
	N     int
	Err   syscall.Errno
	Stays bool
	Fired bool
}

// Before is for Disk.Watch.
func (f *Fault) Before(o Op) error {
	f.N--
	if f.N == -1 || (f.N < 0 && f.Stays) {
		f.Fired = true
		return &os.PathError{Op: o.What, Path: o.File, Err: f.Err}
	}
	return nil
}

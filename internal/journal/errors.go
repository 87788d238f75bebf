package journal

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"strings"
	"syscall"
	"time"

	"github.com/ncruces/go-sqlite3"
)

// Reasons that [errors.Is] finds in what this package returns.
var (
	ErrFull     = errors.New("disk full")
	ErrReadOnly = errors.New("the folder may not be written")
	ErrBusy     = errors.New("another program keeps the store busy")
	ErrCorrupt  = errors.New("the database file is damaged")
	ErrChanged  = errors.New("the batch is not as this program left it")
	ErrClosed   = errors.New("already closed")
)

// HeldError says that a batch has a writer already. PID is 0, Host empty and
// Since zero when the holder has not written them down. Elsewhere says that
// another machine did, whose lock does not show here: Store.TakeOver is for the
// case that nothing runs there any more.
type HeldError struct {
	Batch     string
	PID       int
	Host      string
	Since     time.Time
	Elsewhere bool
}

func (e *HeldError) Error() string {
	if e.Elsewhere {
		return fmt.Sprintf("journal: batch %s was left open on %s: process %d, since %s (close it there, or make sure that nothing runs there and take it over)",
			e.Batch, e.Host, e.PID, e.Since.Format("2006-01-02 15:04"))
	}
	if e.PID == 0 {
		return fmt.Sprintf("journal: batch %s is open in another program (close it there first)", e.Batch)
	}
	return fmt.Sprintf("journal: batch %s is open in another program: process %d on %s, since %s (close it there first)",
		e.Batch, e.PID, e.Host, e.Since.Format("2006-01-02 15:04"))
}

// NewerError says that a store was written by a newer program. It is left as it is.
type NewerError struct{ Found, Known int }

func (e *NewerError) Error() string {
	return fmt.Sprintf("journal: a newer program wrote this store: it has version %d, this program knows versions up to %d"+
		" (nothing was changed; use the newer program)", e.Found, e.Known)
}

// ForeignError says that the file at Path is not a store. It is left as it is.
type ForeignError struct{ Path, Why string }

func (e *ForeignError) Error() string {
	return fmt.Sprintf("journal: %s is not a store of this program: %s"+
		" (nothing was changed; move the file away or choose another folder)", e.Path, e.Why)
}

// DamageError says that a batch cannot be trusted from fact Seq on.
type DamageError struct {
	Batch string
	Seq   int    // the first fact that is wrong or missing
	What  string // what is wrong, in words
	Err   error  // what the database said, if it did
}

func (e *DamageError) Error() string {
	return fmt.Sprintf("journal: batch %s is damaged at fact %d: %s"+
		" (the facts before it are sound; copy the folder before doing anything else)", e.Batch, e.Seq, e.What)
}

func (e *DamageError) Unwrap() error { return e.Err }

// failure says what was not done, why, and what to do. It wraps the reason (one
// of the Err values, if any fits) and the cause.
type failure struct {
	what, why, do string
	reason, cause error
}

func (f *failure) Error() string {
	if f.do == "" {
		return fmt.Sprintf("journal: %s: %s", f.what, f.why)
	}
	return fmt.Sprintf("journal: %s: %s (%s)", f.what, f.why, f.do)
}

func (f *failure) Unwrap() []error {
	if f.reason == nil {
		return []error{f.cause}
	}
	return []error{f.reason, f.cause}
}

// isFull knows how a full disk shows. The shared memory of the log is a file too,
// made by the driver out of our sight, and space is what its growth can lack.
func isFull(err error) bool {
	return isAny(err, syscall.ENOSPC, syscall.EDQUOT, sqlite3.FULL, sqlite3.IOERR_SHMSIZE)
}

// explain puts err into words. What an errors.Is finds beneath decides; the
// order matters, since a full disk also makes SQLite report an I/O error.
func explain(what string, err error) error {
	f := &failure{what: what, cause: err}
	switch {
	case isFull(err):
		f.reason, f.do = ErrFull, "free some space, then try again"
	case isAny(err, syscall.EROFS, fs.ErrPermission, sqlite3.READONLY, sqlite3.PERM):
		f.reason, f.do = ErrReadOnly, "make the folder and its files writable, then try again"
	case isAny(err, ErrBusy, sqlite3.BUSY, sqlite3.LOCKED, context.DeadlineExceeded):
		f.reason, f.do = ErrBusy, "wait or close the other program, then try again"
	case isAny(err, sqlite3.CORRUPT, sqlite3.NOTADB):
		f.reason, f.do = ErrCorrupt, "copy the folder before doing anything else"
	case errors.Is(err, ErrChanged):
		f.reason, f.do = ErrChanged, "open the batch again and look before going on"
	case errors.Is(err, ErrClosed):
		f.reason = ErrClosed
	case isAny(err, sqlite3.IOERR, sqlite3.CANTOPEN):
		f.why, f.do = "the disk reports an error: "+err.Error(), "try again; if it stays, copy the folder to another disk"
	default:
		f.why = strings.TrimPrefix(err.Error(), "journal: ") // said once, at the front
	}
	if f.reason != nil {
		f.why = f.reason.Error()
	}
	return f
}

// because adds to err what the disk said, on one line.
func because(err, cause error) error {
	if cause == nil {
		return err
	}
	return fmt.Errorf("%w: %w", err, cause)
}

func isAny(err error, targets ...error) bool {
	for _, t := range targets {
		if errors.Is(err, t) {
			return true
		}
	}
	return false
}

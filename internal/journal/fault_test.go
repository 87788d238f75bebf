package journal_test

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"bench/internal/brittle"
	"bench/internal/journal"
)

// eachFault runs try with a fault at the first change, the second ... until a
// run completes without meeting it.
func eachFault(t *testing.T, try func(t *testing.T, p *brittle.Disk, f *brittle.Fault)) {
	for _, errno := range []syscall.Errno{syscall.ENOSPC, syscall.EIO} {
		for _, stays := range []bool{false, true} {
			t.Run(fmt.Sprintf("%d stays %v", errno, stays), func(t *testing.T) {
				p := newTap(t)
				for n := 0; ; n++ {
					f := &brittle.Fault{N: n, Err: errno, Stays: stays}
					if try(t, p, f); !f.Fired {
						t.Logf("%d places to fail", n)
						if n < 4 {
							t.Fatal("the faults reach too few places to mean anything")
						}
						return
					}
				}
			})
		}
	}
}

func TestFaultWhileAppending(t *testing.T) {
	eachFault(t, func(t *testing.T, p *brittle.Disk, f *brittle.Fault) {
		dir := t.TempDir()
		s := open(t, dir, journal.Options{VFS: t.Name()})
		w := holdBatch(t, s, "26K25A")
		p.Watch(f.Before)
		defer p.Watch(nil)
		var acked []journal.Record
		for i := range 3 {
			r, err := w.Append("weighed", weighing(i), []string{"OL-2291"}, stamp(i))
			if err != nil {
				wantNotSaved(t, err, i+1, f.Err)
				wantRecords(t, s, "26K25A", acked)
				wantOnDisk(t, dir, acked)
				p.Watch(nil) // the fault has gone
				r, err = w.Append("weighed", weighing(i), []string{"OL-2291"}, stamp(i))
				must(t, err)
			}
			acked = append(acked, r)
		}
		wantOnDisk(t, dir, acked)
		must(t, s.Close())
		wantRecords(t, open(t, dir, journal.Options{}), "26K25A", acked)
	})
}

// wantNotSaved checks the words and the kind of an error from Append.
func wantNotSaved(t *testing.T, err error, seq int, errno syscall.Errno) {
	t.Helper()
	want := fmt.Sprintf("journal: fact %d of batch 26K25A was not saved: disk full (free some space, then try again)", seq)
	if errno == syscall.ENOSPC {
		wantIs(t, err, journal.ErrFull)
		if err.Error() != want {
			t.Fatalf("got %q, want %q", err, want)
		}
		return
	}
	start := fmt.Sprintf("journal: fact %d of batch 26K25A was not saved: the disk reports an error: ", seq)
	if !errors.Is(err, errno) || !strings.HasPrefix(err.Error(), start) || strings.Contains(err.Error(), "\n") {
		t.Fatalf("got %q", err)
	}
}

// wantOnDisk checks what others see: another reader exactly the acknowledged
// facts, and whoever finds the files after a crash at most one whole fact more.
func wantOnDisk(t *testing.T, dir string, acked []journal.Record) {
	t.Helper()
	reader, err := journal.Open(dir, journal.Options{ReadOnly: true})
	must(t, err)
	wantRecords(t, reader, "26K25A", acked)
	must(t, reader.Close())

	crashed := t.TempDir()
	for name, text := range snapshot(t, dir) {
		if !strings.HasSuffix(name, "-shm") { // lost with the machine
			must(t, os.WriteFile(filepath.Join(crashed, name), []byte(text), 0o600))
		}
	}
	s, err := journal.Open(crashed, journal.Options{})
	must(t, err)
	found, err := s.Records("26K25A")
	must(t, err)
	if len(found) < len(acked) || len(found) > len(acked)+1 {
		t.Fatalf("after a crash there are %d facts, acknowledged are %d", len(found), len(acked))
	}
	must(t, s.Close())
}

func TestFaultWhileCreating(t *testing.T) {
	eachFault(t, func(t *testing.T, p *brittle.Disk, f *brittle.Fault) {
		dir := filepath.Join(t.TempDir(), "store")
		p.Watch(f.Before)
		defer p.Watch(nil)
		s, err := journal.Open(dir, journal.Options{VFS: t.Name()})
		if err != nil {
			if f.Err == syscall.ENOSPC {
				wantIs(t, err, journal.ErrFull)
			}
			p.Watch(nil)
			s = open(t, dir, journal.Options{VFS: t.Name()})
		}
		p.Watch(nil)
		add(t, holdBatch(t, s, "26K25A"), 0, 2)
		must(t, s.Close())
	})
}

func TestFaultWhileClosing(t *testing.T) {
	eachFault(t, func(t *testing.T, p *brittle.Disk, f *brittle.Fault) {
		dir := t.TempDir()
		s := open(t, dir, journal.Options{VFS: t.Name()})
		want := add(t, holdBatch(t, s, "26K25A"), 0, 3)
		p.Watch(f.Before)
		defer p.Watch(nil)
		if err := s.Close(); err != nil {
			t.Logf("close: %v", err)
		}
		p.Watch(nil)
		s = open(t, dir, journal.Options{})
		wantRecords(t, s, "26K25A", want)
		must(t, s.Close())
		if files := snapshot(t, dir); len(files) != 1 {
			t.Errorf("the next clean close left %d files", len(files))
		}
	})
}

func TestReadOnlyFolder(t *testing.T) {
	p := newTap(t)
	dir := t.TempDir()
	s := open(t, dir, journal.Options{VFS: t.Name()})
	w := holdBatch(t, s, "26K25A")
	for _, errno := range []syscall.Errno{syscall.EROFS, syscall.EACCES} {
		p.Watch((&brittle.Fault{Err: errno, Stays: true}).Before)
		_, err := w.Append("weighed", weighing(0), nil, stamp(0))
		wantIs(t, err, journal.ErrReadOnly)
		_, err = journal.Open(t.TempDir(), journal.Options{VFS: t.Name()})
		wantIs(t, err, journal.ErrReadOnly)
	}
	p.Watch(nil)
	add(t, w, 0, 1)
}

// The promise of one flush a commit, once the log is there.
func TestOneFlushAnAppend(t *testing.T) {
	p := newTap(t)
	w := holdBatch(t, open(t, t.TempDir(), journal.Options{VFS: t.Name()}), "26K25A")
	add(t, w, 0, 1)
	for i := 1; i < 10; i++ {
		flushes, last := 0, ""
		p.Watch(func(o brittle.Op) error {
			if last = o.What; o.What == "sync" {
				flushes++
			}
			return nil
		})
		add(t, w, i, i+1)
		if flushes != 1 || last != "sync" {
			t.Errorf("append %d made %d flushes and ended with a %s", i, flushes, last)
		}
	}
	p.Watch(nil)
}

// Package brittle is a disk that can fail and lose power, for tests of what
// stands on it.
//
// The rule: it changes nothing by itself. A test sees each change before it is
// made, and refuses it, or writes it down and cuts the power afterwards.
package brittle

import (
	"path/filepath"
	"sync"

	"github.com/ncruces/go-sqlite3/vfs"
)

// Disk is a VFS over the driver's own. Reading is never in the way.
type Disk struct {
	vfs.VFSFilename
	mu     sync.Mutex
	before func(Op) error
	hurry  bool
}

// Op is one change of the disk.
type Op struct {
	What string // create, write, truncate, sync, delete
	File string // base name
	Off  int64  // of a write; the size of a truncate
	Data []byte
	Dir  bool // a delete that flushes the folder as well
}

// New registers a disk under a name, for journal.Options; done takes it away.
func New(name string) (d *Disk, done func()) {
	base, ok := vfs.Find("").(vfs.VFSFilename)
	if !ok {
		panic("the driver's own vfs takes no filenames") // It is part of the driver.
	}
	d = &Disk{VFSFilename: base}
	vfs.Register(name, d)
	return d, func() { vfs.Unregister(name) }
}

// Watch has f called before each change from now on: its error refuses the
// change. nil ends it.
func (d *Disk) Watch(f func(Op) error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.before = f
}

// Hurry leaves out every flush, for what may be lost.
func (d *Disk) Hurry() { d.hurry = true }

func (d *Disk) ask(o Op) error {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.before == nil {
		return nil
	}
	return d.before(o)
}

// OpenFilename opens a file; making one is a change.
func (d *Disk) OpenFilename(name *vfs.Filename, flags vfs.OpenFlag) (vfs.File, vfs.OpenFlag, error) {
	base := filepath.Base(name.String())
	if flags&vfs.OPEN_CREATE != 0 {
		if err := d.ask(Op{What: "create", File: base}); err != nil {
			return nil, flags, err
		}
	}
	f, flags, err := d.VFSFilename.OpenFilename(name, flags)
	if err != nil {
		return nil, flags, err
	}
	return &file{File: f, disk: d, name: base}, flags, nil
}

// Delete deletes a file.
func (d *Disk) Delete(name string, syncDir bool) error {
	if err := d.ask(Op{What: "delete", File: filepath.Base(name), Dir: syncDir}); err != nil {
		return err
	}
	return d.VFSFilename.Delete(name, syncDir)
}

type file struct {
	vfs.File
	disk *Disk
	name string
}

func (f *file) SharedMemory() vfs.SharedMemory {
	if s, ok := f.File.(vfs.FileSharedMemory); ok {
		return s.SharedMemory()
	}
	return nil
}

func (f *file) WriteAt(b []byte, off int64) (int, error) {
	if err := f.disk.ask(Op{What: "write", File: f.name, Off: off, Data: append([]byte{}, b...)}); err != nil {
		return 0, err
	}
	return f.File.WriteAt(b, off)
}

func (f *file) Truncate(size int64) error {
	if err := f.disk.ask(Op{What: "truncate", File: f.name, Off: size}); err != nil {
		return err
	}
	return f.File.Truncate(size)
}

func (f *file) Sync(flags vfs.SyncFlag) error {
	if err := f.disk.ask(Op{What: "sync", File: f.name}); err != nil {
		return err
	}
	if f.disk.hurry {
		return nil
	}
	return f.File.Sync(flags)
}

package journal_test

import (
	"path/filepath"
	"sync"
	"testing"

	"github.com/ncruces/go-sqlite3/vfs"
)

// tap is a VFS over the driver's own that shows each change of the disk to a
// test before it is made, and makes it only if the test agrees.
type tap struct {
	vfs.VFSFilename
	mu     sync.Mutex
	before func(op) error
}

// op is one change of the disk.
type op struct {
	what string // create, write, truncate, sync, delete
	file string // base name
	off  int64  // of a write; the size of a truncate
	data []byte
	dir  bool // a delete that flushes the folder as well
}

func newTap(t *testing.T) *tap {
	t.Helper()
	p := &tap{VFSFilename: vfs.Find("").(vfs.VFSFilename)}
	vfs.Register(t.Name(), p)
	t.Cleanup(func() { vfs.Unregister(t.Name()) })
	return p
}

// watch has f called before each change from now on; nil ends it.
func (p *tap) watch(f func(op) error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.before = f
}

func (p *tap) ask(o op) error {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.before == nil {
		return nil
	}
	return p.before(o)
}

func (p *tap) OpenFilename(name *vfs.Filename, flags vfs.OpenFlag) (vfs.File, vfs.OpenFlag, error) {
	base := filepath.Base(name.String())
	if flags&vfs.OPEN_CREATE != 0 {
		if err := p.ask(op{what: "create", file: base}); err != nil {
			return nil, flags, err
		}
	}
	f, flags, err := p.VFSFilename.OpenFilename(name, flags)
	if err != nil {
		return nil, flags, err
	}
	return &tapFile{File: f, tap: p, name: base}, flags, nil
}

func (p *tap) Delete(name string, syncDir bool) error {
	if err := p.ask(op{what: "delete", file: filepath.Base(name), dir: syncDir}); err != nil {
		return err
	}
	return p.VFSFilename.Delete(name, syncDir)
}

type tapFile struct {
	vfs.File
	tap  *tap
	name string
}

func (f *tapFile) SharedMemory() vfs.SharedMemory {
	return f.File.(vfs.FileSharedMemory).SharedMemory()
}

func (f *tapFile) WriteAt(b []byte, off int64) (int, error) {
	if err := f.tap.ask(op{what: "write", file: f.name, off: off, data: append([]byte{}, b...)}); err != nil {
		return 0, err
	}
	return f.File.WriteAt(b, off)
}

func (f *tapFile) Truncate(size int64) error {
	if err := f.tap.ask(op{what: "truncate", file: f.name, off: size}); err != nil {
		return err
	}
	return f.File.Truncate(size)
}

func (f *tapFile) Sync(flags vfs.SyncFlag) error {
	if err := f.tap.ask(op{what: "sync", file: f.name}); err != nil {
		return err
	}
	return f.File.Sync(flags)
}

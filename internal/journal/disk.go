package journal

import (
	"errors"
	"fmt"
	"io/fs"
	"sync"

	"github.com/ncruces/go-sqlite3/vfs"
)

// disk stands between SQLite and the disk and remembers why the disk refused.
// Without it the reason is lost: the driver keeps the system's error only until
// the next successful call, and the rollback after a failed commit makes some,
// so that a full disk would read "disk I/O error".
type disk struct {
	name string
	base vfs.VFS

	mu   sync.Mutex
	last error
}

// newDisk registers a disk over the named vfs ("" is the driver's own).
func newDisk(name string) (*disk, error) {
	base := vfs.Find(name)
	if base == nil {
		return nil, fmt.Errorf("journal: no vfs is registered under the name %q", name)
	}
	d := &disk{base: base}
	d.name = fmt.Sprintf("bench-journal-%p", d) // no other while this one is registered
	vfs.Register(d.name, d)
	return d, nil
}

func (d *disk) close() { vfs.Unregister(d.name) }

func (d *disk) note(err error) error {
	if err != nil {
		d.mu.Lock()
		d.last = err
		d.mu.Unlock()
	}
	return err
}

// take returns the last refusal and forgets it.
func (d *disk) take() error {
	d.mu.Lock()
	defer d.mu.Unlock()
	err := d.last
	d.last = nil
	return err
}

func (d *disk) Open(name string, flags vfs.OpenFlag) (vfs.File, vfs.OpenFlag, error) {
	f, flags, err := d.base.Open(name, flags)
	return d.wrap(f, flags, err)
}

func (d *disk) OpenFilename(name *vfs.Filename, flags vfs.OpenFlag) (vfs.File, vfs.OpenFlag, error) {
	base, ok := d.base.(vfs.VFSFilename)
	if !ok {
		return d.Open(name.String(), flags)
	}
	f, flags, err := base.OpenFilename(name, flags)
	return d.wrap(f, flags, err)
}

func (d *disk) wrap(f vfs.File, flags vfs.OpenFlag, err error) (vfs.File, vfs.OpenFlag, error) {
	if err != nil {
		return nil, flags, d.note(err)
	}
	return &diskFile{File: f, disk: d, log: flags&vfs.OPEN_WAL != 0}, flags, nil
}

func (d *disk) Delete(name string, syncDir bool) error {
	err := d.base.Delete(name, syncDir)
	if errors.Is(err, fs.ErrNotExist) {
		return err // SQLite deletes files that need not be there
	}
	return d.note(err)
}

func (d *disk) Access(name string, flags vfs.AccessFlag) (bool, error) {
	return d.base.Access(name, flags)
}

func (d *disk) FullPathname(name string) (string, error) { return d.base.FullPathname(name) }

// diskFile passes on what a write-ahead log needs: the shared memory and the
// hint that lets the file grow at once when a checkpoint begins.
type diskFile struct {
	vfs.File
	disk *disk
	log  bool  // log says that it is the write-ahead log.
	end  int64 // end is where the log ends on the disk, as far as is known.
}

func (f *diskFile) WriteAt(p []byte, off int64) (int, error) {
	n, err := f.File.WriteAt(p, off)
	if err == nil && f.log {
		f.reserve(off + int64(n))
	}
	return n, f.disk.note(err)
}

// spare is what a log that has reached its end is made longer by: some fifteen
// facts' worth.
var spare [256 << 10]byte //nolint:gochecknoglobals // Zeros that are never written to take no memory.

// reserve sees to it that the log goes on behind what was written: to flush
// blocks that a file has already takes a disk about half as long as to flush new
// ones, which the file system must enter in its own journal first. To SQLite,
// zeros are the end of the log, as what is left there of an earlier round is. Nobody
// else writes the log meanwhile: who writes it holds the lock. Where there is no
// room, the log does without.
func (f *diskFile) reserve(written int64) {
	if written < f.end {
		return
	}
	size, err := f.Size()
	if f.end = size; err != nil || written < size {
		return
	}
	n, _ := f.File.WriteAt(spare[:], written)
	f.end = written + int64(n)
}

func (f *diskFile) Truncate(size int64) error { return f.disk.note(f.File.Truncate(size)) }

func (f *diskFile) Sync(flags vfs.SyncFlag) error { return f.disk.note(f.File.Sync(flags)) }

func (f *diskFile) SharedMemory() vfs.SharedMemory {
	if s, ok := f.File.(vfs.FileSharedMemory); ok {
		return s.SharedMemory()
	}
	return nil
}

func (f *diskFile) SizeHint(size int64) error {
	if s, ok := f.File.(vfs.FileSizeHint); ok {
		return f.disk.note(s.SizeHint(size))
	}
	return nil
}

// DeviceCharacteristics hides atomic batches, whose calls are not passed on.
func (f *diskFile) DeviceCharacteristics() vfs.DeviceCharacteristic {
	return f.File.DeviceCharacteristics() &^ vfs.IOCAP_BATCH_ATOMIC
}

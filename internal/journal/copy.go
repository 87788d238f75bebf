package journal

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// keptFolder stands in the folder of a store and has what an upgrade or a
// restore replaced. Nothing here ever deletes from it.
const keptFolder = "kept"

// copyTo writes the store, as it is at this moment, to a new file beside path,
// flushes it and gives its name. It waits for nobody and nobody waits for it.
func (d *db) copyTo(path string) (name string, err error) {
	f, err := os.CreateTemp(filepath.Dir(path), ".new-*")
	if err != nil {
		return "", err
	}
	name = f.Name()
	defer func() {
		if err = errors.Join(err, f.Close()); err != nil {
			_ = os.Remove(name) // What went wrong before is what matters.
		}
	}()
	if err := d.vacuumInto(name); err != nil {
		return name, err
	}
	return name, f.Sync()
}

// vacuumInto copies row by row in one read transaction, so that a damaged page
// is found, and what others append meanwhile is left out. An older version is
// copied as it is, and not as a reader sees it.
func (d *db) vacuumInto(name string) error {
	readOnly, err := d.integer("PRAGMA query_only")
	if err != nil {
		return err
	}
	if err := d.conn.Exec("PRAGMA query_only = OFF; DROP VIEW IF EXISTS temp.batch"); err != nil {
		return err
	}
	err = d.exec("VACUUM INTO ?1", name)
	if readOnly == 1 {
		err = errors.Join(err, d.readOnly())
	}
	return err
}

// keepCopy puts a copy of the store into the folder of what is kept.
func (d *db) keepCopy(name string) error {
	path, err := freeName(d.path, name)
	if err != nil {
		return err
	}
	made, err := d.copyTo(path)
	if err != nil {
		return err
	}
	return giveName(made, path)
}

// freeName gives a path for NAME.db in the folder of what is kept, which it
// makes: NAME-2.db if that is taken, and so on.
func freeName(store, name string) (string, error) {
	folder := filepath.Join(filepath.Dir(store), keptFolder)
	if err := makeFolder(folder); err != nil {
		return "", err
	}
	path := filepath.Join(folder, name+".db")
	for n := 2; ; n++ {
		_, err := os.Lstat(path)
		if errors.Is(err, fs.ErrNotExist) {
			return path, nil
		}
		if err != nil {
			return "", err
		}
		path = filepath.Join(folder, fmt.Sprintf("%s-%d.db", name, n))
	}
}

// giveName moves a finished file to its name, durably, unless that is taken. A
// link is refused then; file systems that have none are asked first.
func giveName(made, path string) error {
	err := os.Link(made, path)
	switch {
	case err == nil, errors.Is(err, fs.ErrExist):
		err = errors.Join(err, os.Remove(made))
	default:
		if _, err = os.Lstat(path); errors.Is(err, fs.ErrNotExist) {
			err = os.Rename(made, path)
		} else {
			err = errors.Join(fs.ErrExist, os.Remove(made))
		}
	}
	return errors.Join(err, syncFolder(filepath.Dir(path)))
}

// copyFile copies a file byte by byte, for the owner only, and flushes it.
func copyFile(from, to string) error {
	in, err := os.Open(from)
	if err != nil {
		return err
	}
	defer func() { _ = in.Close() }() // opened to read: nothing can be lost
	out, err := os.OpenFile(to, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o600)
	if err != nil {
		return err
	}
	_, err = io.Copy(out, in)
	return errors.Join(err, out.Sync(), out.Close())
}

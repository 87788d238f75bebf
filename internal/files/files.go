// Package files writes files that are whole.
//
// The rule: a name has the old content or the new one, never a part of either.
package files

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// Replace writes a file so that its name always holds the old content or
// the new one, whole. It makes the folder.
func Replace(path string, data []byte) error {
	dir := filepath.Dir(path)
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return err
	}
	f, err := os.CreateTemp(dir, ".new-*")
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	err = errors.Join(err, f.Sync(), f.Close())
	if err == nil {
		err = os.Rename(f.Name(), path)
	}
	if err != nil {
		return errors.Join(err, os.Remove(f.Name()))
	}
	return nil
}

// Rights of new files, before the umask.
const (
	Private fs.FileMode = 0o600 // Private is for what tells of a batch.
	Open    fs.FileMode = 0o644 // Open is for pictures.
)

// Create writes what the user asked for by name: a file that must not be there yet,
// unless it may be replaced; then it is whole at every moment, and keeps its rights. Its folder must be there.
func Create(path string, data []byte, rights fs.FileMode, replace bool) (replaced bool, err error) {
	if _, err := os.Stat(filepath.Dir(path)); err != nil {
		return false, fmt.Errorf("write %s: its folder is not there: %w", path, err)
	}
	if info, err := os.Stat(path); err == nil && info.Mode()&(fs.ModeNamedPipe|fs.ModeDevice) != 0 {
		return false, os.WriteFile(path, data, 0o600) // A pipe or /dev/stdout holds nothing that could be lost.
	}
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, rights)
	if errors.Is(err, fs.ErrExist) && replace {
		info, err := os.Lstat(path)
		if err == nil && !info.Mode().IsRegular() {
			err = fmt.Errorf("%s is not a file, and was left alone", path)
		}
		if err != nil {
			return false, err
		}
		return true, errors.Join(Replace(path, data), os.Chmod(path, info.Mode().Perm()))
	}
	if errors.Is(err, fs.ErrExist) {
		return false, fmt.Errorf("%s is there already, and was left alone: name another file, or say --replace", path)
	}
	if err != nil {
		return false, err
	}
	_, err = f.Write(data)
	if err = errors.Join(err, f.Sync(), f.Close()); err != nil {
		err = errors.Join(err, os.Remove(path))
	}
	return false, err
}

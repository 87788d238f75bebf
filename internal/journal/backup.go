package journal

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/ncruces/go-sqlite3"
)

// Backup writes the store, as it is at this moment, to the new file at path, and
// reads the copy back before the file gets its name. Others may go on writing.
// It refuses a path that is taken, with an error that wraps fs.ErrExist, and a
// store that is not whole: an older backup is then worth more than a new one.
func (s *Store) Backup(path string, progress func(done, total int)) (Check, error) {
	var check Check
	err := s.do(func(d *db) error {
		if _, err := os.Lstat(path); !errors.Is(err, fs.ErrNotExist) {
			return errors.Join(err, fmt.Errorf("%s: %w", path, fs.ErrExist))
		}
		made, err := d.copyTo(path)
		if err != nil {
			return err
		}
		if check, err = checkCopy(made, Options{schema: d.schema}, progress); err == nil {
			err = check.Err()
		}
		if err != nil {
			return errors.Join(err, os.Remove(made))
		}
		return giveName(made, path)
	})
	switch {
	case errors.Is(err, fs.ErrExist):
		return check, takenError{path}
	case err != nil:
		return check, explain("no backup was written", err)
	}
	return check, nil
}

// takenError says that no backup is written over a file. It is fs.ErrExist.
type takenError struct{ path string }

func (e takenError) Error() string {
	return e.path + " is there already, and was left alone: a backup takes no other's place, so name a new file"
}

func (takenError) Unwrap() error { return fs.ErrExist }

// checkCopy verifies a file that nobody else knows of.
func checkCopy(path string, opt Options, progress func(done, total int)) (Check, error) {
	if _, err := look(path, opt.steps().version()); err != nil {
		return Check{}, err
	}
	d, err := connectToRead(path, opt, sqlite3.OPEN_READONLY, "1")
	if err != nil {
		return Check{}, err
	}
	check, err := d.verify(progress)
	return check, errors.Join(err, d.close())
}

// Restored says what a restore did.
type Restored struct {
	Check          // of what is now the store
	Kept  string   // where the store that was there before is kept, "" if there was none
	Gone  []string // batches, or facts of them, that only the kept one has, in words
}

// Restore puts the backup at path in the place of the store in dir. The backup
// is verified first, and upgraded if it is older; one that is damaged or newer
// is refused and nothing is touched. What was there before is kept whole. While
// another program has the store open, Restore returns ErrBusy.
func Restore(dir, path string, opt Options, progress func(done, total int)) (Restored, error) {
	r, err := restore(dir, path, opt, progress)
	if err != nil && !isRefusal(err) {
		return r, explain("nothing was restored", err)
	}
	return r, err
}

func restore(dir, path string, opt Options, progress func(done, total int)) (r Restored, err error) {
	if dir, err = filepath.Abs(dir); err != nil {
		return r, err
	}
	if err := isBackup(path, opt); err != nil {
		return r, err
	}
	if err := makeFolder(filepath.Join(dir, holdFolder)); err != nil {
		return r, err
	}
	alone, err := haveStore(dir)
	if err != nil {
		return r, err
	}
	defer func() { _ = alone.Unlock() }() // frees itself at the latest with the process
	// Of a restore that was killed: nobody else is at it.
	for _, left := range scratch(dir) {
		if err := os.RemoveAll(left); err != nil {
			return r, err
		}
	}
	fresh, err := os.MkdirTemp(dir, scratchPrefix+"*")
	if err != nil {
		return r, err
	}
	defer func() { _ = os.RemoveAll(fresh) }() // Else the next restore does it.
	made := filepath.Join(fresh, fileName)
	if r.Check, err = prepareCopy(path, made, opt, progress); err != nil {
		return r, err
	}
	store := filepath.Join(dir, fileName)
	if r.Gone, err = onlyIn(store, made, opt); err != nil {
		return r, err
	}
	if r.Kept, err = keepStore(store, opt); err != nil {
		return r, err
	}
	return r, errors.Join(os.Rename(made, store), syncFolder(dir))
}

const scratchPrefix = ".restore-"

func scratch(dir string) (left []string) {
	entries, _ := os.ReadDir(dir) // What cannot be listed fails at the next step.
	for _, e := range entries {
		if strings.HasPrefix(e.Name(), scratchPrefix) {
			left = append(left, filepath.Join(dir, e.Name()))
		}
	}
	return left
}

// isBackup refuses a file that is nothing yet, too: a store could be made of it.
func isBackup(path string, opt Options) error {
	info, err := os.Stat(path)
	if err != nil {
		return err
	}
	if info.Size() == 0 {
		return &ForeignError{Path: path, Why: "it is empty"}
	}
	_, err = look(path, opt.steps().version())
	return err
}

// prepareCopy makes a store of a backup: whole, of this version, flushed.
func prepareCopy(path, made string, opt Options, progress func(done, total int)) (Check, error) {
	err := copyFile(path, made)
	if err == nil && walSize(path) > 0 { // A store that was kept has its log beside it.
		err = copyFile(path+"-wal", made+"-wal")
	}
	if err != nil {
		return Check{}, err
	}
	d, err := openToWrite(made, opt)
	if err != nil {
		return Check{}, err
	}
	check, err := d.verify(progress)
	if err = errors.Join(err, d.close()); err == nil {
		err = check.Err()
	}
	return check, err
}

// keepStore copies the store with its log, and then folds the log in, so that
// no log is left that another file could take for its own.
func keepStore(store string, opt Options) (kept string, err error) {
	if _, err := os.Lstat(store); errors.Is(err, fs.ErrNotExist) {
		return "", nil
	}
	if kept, err = freeName(store, "replaced"); err != nil {
		return "", err
	}
	if walSize(store) > 0 {
		err = copyFile(store+"-wal", kept+"-wal")
	}
	if err == nil {
		err = copyFile(store, kept)
	}
	if err = errors.Join(err, syncFolder(filepath.Dir(kept))); err != nil {
		return "", err
	}
	if d, err := openToWrite(store, opt); err == nil {
		_ = d.close() // If the disk refuses, the log is deleted below: it is kept.
	}
	for _, side := range []string{"-wal", "-shm", "-journal"} {
		if err := os.Remove(store + side); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return kept, err
		}
	}
	return kept, nil
}

// onlyIn says in words what the store has and the backup has not. A store that
// cannot be read has nothing to say.
func onlyIn(store, backup string, opt Options) ([]string, error) {
	ends := func(path string) (map[string]int, error) {
		d, err := openToRead(path, opt)
		if err != nil {
			return nil, err
		}
		heads, err := d.heads(headsSQL)
		all := map[string]int{}
		for _, h := range heads {
			all[h.Batch] = h.Seq
		}
		return all, errors.Join(err, d.close())
	}
	had, err := ends(store)
	if err != nil {
		return nil, nil //nolint:nilerr // It may be damaged: that is what a restore is for.
	}
	has, err := ends(backup)
	var gone []string
	for _, code := range sortedKeys(had) {
		if n := had[code] - has[code]; n > 0 {
			gone = append(gone, fmt.Sprintf("batch %s: the last %d of %d facts", code, n, had[code]))
		}
	}
	return gone, err
}

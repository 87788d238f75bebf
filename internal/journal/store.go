package journal

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"sync"

	"github.com/gofrs/flock"
)

// fileName is the database in the folder of a store.
const fileName = "journal.db"

// Options say how to open a store.
type Options struct {
	ReadOnly bool   // the main file is never changed and Hold is refused
	VFS      string // name of a registered ncruces vfs, "" for the default

	schema schema // steps other than the released ones, for tests
}

func (o Options) steps() schema {
	if o.schema != nil {
		return o.schema
	}
	return released()
}

// Store is an open store. Its methods may be called from several goroutines.
type Store struct {
	dir, path string
	readOnly  bool

	mu      sync.Mutex
	db      *db // nil once closed
	writers map[*Writer]struct{}
	inUse   *flock.Flock // inUse, shared with others who may write, keeps a restore away
}

// Open opens the store in the folder dir; unless opt.ReadOnly, it creates both
// if absent. A store of a newer program is refused with a *NewerError and a file
// that is not a store with a *ForeignError; neither is touched. Opening a store
// that is not there with opt.ReadOnly gives an error that wraps fs.ErrNotExist.
func Open(dir string, opt Options) (*Store, error) {
	s, err := open(dir, opt)
	if err == nil {
		return s, nil
	}
	if isRefusal(err) {
		return nil, err
	}
	return nil, explain(fmt.Sprintf("the store in %s cannot be opened", dir), err)
}

// isRefusal tells errors that already say everything.
func isRefusal(err error) bool {
	var newer *NewerError
	var foreign *ForeignError
	return errors.As(err, &newer) || errors.As(err, &foreign)
}

func open(dir string, opt Options) (*Store, error) {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return nil, err
	}
	s := &Store{
		dir: dir, path: filepath.Join(dir, fileName), readOnly: opt.ReadOnly,
		writers: map[*Writer]struct{}{},
	}
	made, err := look(s.path, opt.steps().version())
	switch {
	case err != nil:
		return nil, err
	case opt.ReadOnly && !made:
		return nil, fmt.Errorf("there is no store yet: %w", fs.ErrNotExist)
	case opt.ReadOnly:
		s.db, err = openToRead(s.path, opt)
		return s, err
	}
	return s, s.openToWrite(made, opt)
}

func (s *Store) openToWrite(made bool, opt Options) (err error) {
	if err := makeFolder(filepath.Join(s.dir, holdFolder)); err != nil {
		return err
	}
	if s.inUse, err = useStore(s.dir); err != nil {
		return err
	}
	if made {
		s.db, err = openToWrite(s.path, opt)
	} else {
		s.db, err = create(s.path, opt)
	}
	if err != nil {
		_ = s.inUse.Unlock() // frees itself at the latest with the process
	}
	return err
}

// Close releases the writers and closes the store. The last to close it folds
// the log into the main file and removes the side files; if the disk refuses
// that, the log stays, nothing is lost, and the next Open goes on from there.
// A reader leaves a log with facts in it alone.
func (s *Store) Close() error {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.db == nil {
		return nil
	}
	var errs []error
	for w := range s.writers {
		errs = append(errs, w.release())
	}
	if s.readOnly && walSize(s.path) == 0 {
		errs = append(errs, s.db.checkpointOnClose(true)) // an empty log: side files only
	}
	errs = append(errs, s.db.close())
	s.db = nil
	if s.inUse != nil {
		errs = append(errs, s.inUse.Unlock())
	}
	if err := errors.Join(errs...); err != nil {
		return explain(fmt.Sprintf("the store in %s was not closed cleanly", s.dir), err)
	}
	return nil
}

// do runs f with the connection, alone, and adds to its error what the disk said.
func (s *Store) do(f func(*db) error) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.db == nil {
		return ErrClosed
	}
	_ = s.db.disk.take() // what it said before is not about this
	if err := f(s.db); err != nil {
		return because(err, s.db.disk.take())
	}
	return nil
}

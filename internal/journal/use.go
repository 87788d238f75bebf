package journal

import (
	"context"
	"fmt"
	"path/filepath"
	"time"

	"github.com/gofrs/flock"
)

// useFile in the hold folder is locked by everyone who may write the store: by
// many together to use it, by one alone to put another in its place.
const useFile = "store"

// useStore takes part in using a store.
func useStore(dir string) (*flock.Flock, error) {
	lock := flock.New(filepath.Join(dir, holdFolder, useFile))
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	if _, err := lock.TryRLockContext(ctx, time.Millisecond); err != nil {
		return nil, fmt.Errorf("another program is restoring it: %w", err)
	}
	return lock, nil
}

// haveStore takes a store for oneself alone.
func haveStore(dir string) (*flock.Flock, error) {
	lock := flock.New(filepath.Join(dir, holdFolder, useFile))
	ok, err := lock.TryLock()
	switch {
	case err != nil:
		return nil, err
	case !ok:
		return nil, ErrBusy
	}
	return lock, nil
}

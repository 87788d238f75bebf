package journal

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/gofrs/flock"
	"github.com/ncruces/go-sqlite3"
)

// patience is how long an operation waits for another program's transaction.
const patience = 5 * time.Second

// create makes the folder and the store, or finishes what was cut off, and makes
// both durable. Programs that do this at the same time take turns: SQLite lets
// only one connection at a time switch a file to the write-ahead log.
func create(path string, opt Options) (*db, error) {
	dir := filepath.Dir(path)
	if err := makeFolder(filepath.Join(dir, holdFolder)); err != nil {
		return nil, err
	}
	done, err := takeTurn(dir)
	if err != nil {
		return nil, err
	}
	defer done()
	// SQLite would let others read it; the log takes its mode from it.
	f, err := os.OpenFile(path, os.O_CREATE|os.O_RDWR, 0o600)
	if err != nil {
		return nil, err
	}
	if err := f.Close(); err != nil {
		return nil, err
	}
	d, err := openToWrite(path, opt)
	if err != nil {
		return nil, err
	}
	// The parent once more: whoever made the folder may have died before that.
	if err := errors.Join(syncFolder(dir), syncFolder(filepath.Dir(dir))); err != nil {
		return nil, because(err, d.close())
	}
	return d, nil
}

// takeTurn waits until no other program makes, upgrades or restores the store.
func takeTurn(dir string) (done func(), err error) {
	turn := flock.New(filepath.Join(dir, holdFolder, "create"))
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	if _, err := turn.TryLockContext(ctx, time.Millisecond); err != nil {
		return nil, err
	}
	return func() { _ = turn.Unlock() }, nil // frees itself at the latest with the process
}

// openToWrite opens the database and creates or upgrades its tables.
func openToWrite(path string, opt Options) (*db, error) {
	d, err := connect(path, opt, sqlite3.OPEN_READWRITE|sqlite3.OPEN_CREATE, "")
	if err != nil {
		return nil, err
	}
	err = d.prepare(d.upgrade, d.useWAL, func() error { return d.checkpointOnClose(true) })
	if err != nil {
		return nil, because(err, d.close())
	}
	return d, nil
}

// openToRead tries the ways to read a store in turn. A reader that may write the
// side files can follow a running writer and clear them away afterwards; in a
// folder it may not write, or on a full disk, it needs those of a running writer,
// or no log at all.
func openToRead(path string, opt Options) (*db, error) {
	d, err := connectToRead(path, opt, sqlite3.OPEN_READWRITE, "")
	noSideFiles := isAny(err, fs.ErrPermission, sqlite3.CANTOPEN, sqlite3.READONLY) || isFull(err)
	if err == nil || !noSideFiles {
		return d, err
	}
	if walSize(path) >= 0 {
		if d, e := connectToRead(path, opt, sqlite3.OPEN_READONLY, ""); e == nil {
			return d, nil
		}
	}
	if walSize(path) <= 0 {
		return connectToRead(path, opt, sqlite3.OPEN_READONLY, "1")
	}
	return nil, fmt.Errorf("the program that wrote it last did not end cleanly; copy the folder to where you may write: %w", err)
}

func connectToRead(path string, opt Options, flags sqlite3.OpenFlag, immutable string) (*db, error) {
	d, err := connect(path, opt, flags, immutable)
	if err != nil {
		return nil, err
	}
	if err := d.prepare(d.readOnly); err != nil {
		return nil, because(err, d.close())
	}
	return d, nil
}

// readOnly has the connection change nothing, and lets an older version be read
// as if it were the latest.
func (d *db) readOnly() error {
	v, err := d.version()
	if err != nil {
		return err
	}
	return d.conn.Exec("PRAGMA temp_store = MEMORY;" + older()[v] + "PRAGMA query_only = ON") // Sorting must need no disk.
}

func connect(path string, opt Options, flags sqlite3.OpenFlag, immutable string) (*db, error) {
	disk, err := newDisk(opt.VFS)
	if err != nil {
		return nil, err
	}
	q := url.Values{"vfs": {disk.name}, "modeof": {path}}
	if immutable != "" {
		q.Set("immutable", immutable)
	}
	query := strings.ReplaceAll(q.Encode(), "+", "%20") // SQLite takes a plus for a plus.
	uri := url.URL{Scheme: "file", OmitHost: true, Path: filepath.ToSlash(path), RawQuery: query}
	conn, err := sqlite3.OpenFlags(uri.String(), flags|sqlite3.OPEN_URI)
	if err != nil {
		disk.close()
		return nil, because(err, disk.take())
	}
	return &db{conn: conn, disk: disk, path: path, schema: opt.steps(), stmts: map[string]*sqlite3.Stmt{}}, nil
}

// prepare makes the connection patient, checks what it leads to, then takes the
// steps. Until the caller says otherwise, closing leaves the log as it is.
func (d *db) prepare(steps ...func() error) error {
	checks := []func() error{
		func() error { return d.conn.BusyTimeout(patience) },
		func() error { return d.checkpointOnClose(false) },
		d.identify,
	}
	for _, step := range append(checks, steps...) {
		if err := step(); err != nil {
			return because(err, d.disk.take())
		}
	}
	return nil
}

func (d *db) checkpointOnClose(yes bool) error {
	_, err := d.conn.Config(sqlite3.DBCONFIG_NO_CKPT_ON_CLOSE, !yes)
	return err
}

package journal

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// makeFolder creates dir with its parents and makes their entries durable.
func makeFolder(dir string) error {
	// Every folder that is missing now has an entry to be flushed in its parent.
	var parents []string
	for d := dir; ; d = filepath.Dir(d) {
		if _, err := os.Stat(d); !errors.Is(err, fs.ErrNotExist) {
			break
		}
		parents = append(parents, filepath.Dir(d))
	}
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return err
	}
	for _, p := range parents {
		if err := syncFolder(p); err != nil {
			return err
		}
	}
	return nil
}

// syncFolder makes the entries of a folder durable.
func syncFolder(dir string) error {
	f, err := os.Open(dir)
	if err != nil {
		return err
	}
	return errors.Join(f.Sync(), f.Close())
}

// look reads the header of the database file without SQLite, which would create
// side files beside a file that is none of our business. It reports whether the
// store is made; until then it holds no facts. The offsets are those of
// https://sqlite.org/fileformat2.html.
func look(path string, known int) (made bool, err error) {
	f, err := os.Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		return false, nil
	}
	if err != nil {
		return false, err
	}
	defer func() { _ = f.Close() }() // opened to read: nothing can be lost
	var head [100]byte
	n, err := io.ReadFull(f, head[:])
	if err != nil && !isAny(err, io.EOF, io.ErrUnexpectedEOF) {
		return false, err
	}
	// A rollback journal is there only while a store is being made, or after
	// that was cut off: whatever the file holds, SQLite will undo it.
	_, err = os.Stat(path + "-journal")
	begun := err == nil
	switch {
	case n == 0:
		return false, nil
	case n < len(head) || !bytes.HasPrefix(head[:], []byte("SQLite format 3\x00")):
		if begun {
			return false, nil
		}
		return false, &ForeignError{Path: path, Why: "it is not an SQLite database"}
	}
	return !begun && head[18] == walFormat, checkHeader(path, head[:], known)
}

// walFormat in the header says that the file is used with a write-ahead log.
const walFormat = 2

func checkHeader(path string, head []byte, known int) error {
	if id := binary.BigEndian.Uint32(head[68:]); id != applicationID {
		return &ForeignError{Path: path, Why: fmt.Sprintf("it is the database of another program (application id %#x)", id)}
	}
	if v := int(int32(binary.BigEndian.Uint32(head[60:]))); v > known {
		return &NewerError{Found: v, Known: known}
	}
	return nil
}

// walSize returns the size of the write-ahead log, -1 if there is none.
func walSize(path string) int64 {
	fi, err := os.Stat(path + "-wal")
	if err != nil {
		return -1
	}
	return fi.Size()
}

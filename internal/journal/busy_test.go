package journal

import (
	"errors"
	"testing"
	"time"

	"github.com/ncruces/go-sqlite3"
)

// TestBusy is inside the package only to shorten the patience of a connection.
func TestBusy(t *testing.T) {
	s, err := Open(t.TempDir(), Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = s.Close() }()
	w, err := s.Hold("26K25A", Stamp{})
	if err != nil {
		t.Fatal(err)
	}
	other, err := sqlite3.Open(s.path)
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = other.Close() }()
	if err := errors.Join(other.Exec("BEGIN IMMEDIATE"), s.db.conn.BusyTimeout(20*time.Millisecond)); err != nil {
		t.Fatal(err)
	}
	_, err = w.Append("noted", []byte(`{}`), nil, Stamp{Wall: time.Unix(0, 0)})
	if !errors.Is(err, ErrBusy) {
		t.Errorf("got error %v", err)
	}
	if err := other.Exec("ROLLBACK"); err != nil {
		t.Fatal(err)
	}
	if _, err = w.Append("noted", []byte(`{}`), nil, Stamp{Wall: time.Unix(0, 0)}); err != nil {
		t.Errorf("after the other had gone: %v", err)
	}
}

// The driver's default for a log is NORMAL, which loses facts in a power cut.
func TestSynchronousIsFull(t *testing.T) {
	s, err := Open(t.TempDir(), Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = s.Close() }()
	if n, err := s.db.integer("PRAGMA synchronous"); n != 2 || err != nil {
		t.Errorf("synchronous is %d, want 2 (FULL); %v", n, err)
	}
}

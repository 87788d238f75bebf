package journal_test

import (
	"errors"
	"maps"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/ncruces/go-sqlite3"

	"bench/internal/journal"
)

// wantUntouched opens dir both ways, wants the same refusal, and compares every
// file in the folder before and after.
func wantUntouched(t *testing.T, dir string, refused func(error) bool) {
	t.Helper()
	before := snapshot(t, dir)
	for _, readOnly := range []bool{true, false} {
		_, err := journal.Open(dir, journal.Options{ReadOnly: readOnly})
		if !refused(err) || !strings.Contains(err.Error(), "nothing was changed") {
			t.Errorf("read only %v: got error %v", readOnly, err)
		}
	}
	if after := snapshot(t, dir); !maps.Equal(before, after) {
		t.Errorf("the folder changed: %d files before, %d after", len(before), len(after))
	}
}

func isForeign(err error) bool { return errors.As(err, new(*journal.ForeignError)) }

func isNewer(err error) bool {
	var newer *journal.NewerError
	return errors.As(err, &newer) && *newer == journal.NewerError{Found: 9, Known: 3} &&
		strings.Contains(err.Error(), "version 9")
}

func TestNewerStoreIsLeftAlone(t *testing.T) {
	dir := t.TempDir()
	s := open(t, dir, journal.Options{})
	add(t, holdBatch(t, s, "26K25A"), 0, 2)
	must(t, s.Close())
	must(t, tamper(t, dir, `PRAGMA user_version = 9`))
	wantUntouched(t, dir, isNewer)
}

// A newer program that died leaves its version in the log only. SQLite has to
// read the log then, for which it makes its index (-shm) anew; that is scratch.
func TestNewerStoreAfterACrash(t *testing.T) {
	live, dir := t.TempDir(), t.TempDir()
	s := open(t, live, journal.Options{})
	w := holdBatch(t, s, "26K25A")
	add(t, w, 0, 2)
	must(t, tamper(t, live, `PRAGMA user_version = 9`))
	for name, text := range snapshot(t, live) {
		if !strings.HasSuffix(name, "-shm") {
			must(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600))
		}
	}
	before := snapshot(t, dir)
	for _, readOnly := range []bool{true, false} {
		_, err := journal.Open(dir, journal.Options{ReadOnly: readOnly})
		if !isNewer(err) {
			t.Errorf("read only %v: got error %v", readOnly, err)
		}
	}
	after := snapshot(t, dir)
	delete(after, "journal.db-shm")
	if !maps.Equal(before, after) {
		t.Error("the main file or the log changed")
	}
	// A program that had the store open when it was upgraded stops writing.
	_, err := w.Append("weighed", weighing(2), nil, stamp(2))
	if !isNewer(err) || strings.Count(err.Error(), "journal:") != 1 {
		t.Errorf("got error %v", err)
	}
}

func TestForeignFilesAreLeftAlone(t *testing.T) {
	for name, text := range map[string]string{
		"text": "dusk over the harbour\n", "long text": strings.Repeat("moon and sea ", 1000), "zeros": string(make([]byte, 4096)),
	} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			must(t, os.WriteFile(filepath.Join(dir, "journal.db"), []byte(text), 0o600))
			wantUntouched(t, dir, isForeign)
		})
	}
	for _, sql := range []string{
		`CREATE TABLE tide (height REAL)`,
		`PRAGMA journal_mode = WAL; CREATE TABLE tide (height REAL)`,
		`PRAGMA application_id = 252006674; PRAGMA user_version = 1`, // the id of another kind of file
	} {
		t.Run(sql, func(t *testing.T) {
			dir := t.TempDir()
			c, err := sqlite3.Open(filepath.Join(dir, "journal.db"))
			must(t, err)
			must(t, c.Exec(sql))
			must(t, c.Close())
			wantUntouched(t, dir, isForeign)
		})
	}
}

// What a program leaves that dies while it creates the store is finished by the
// next, also when the folder was made by hand.
func TestCreationIsFinished(t *testing.T) {
	for name, text := range map[string]string{"empty file": "", "no file": "-"} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			if text == "" {
				must(t, os.WriteFile(filepath.Join(dir, "journal.db"), nil, 0o600))
			}
			add(t, holdBatch(t, open(t, dir, journal.Options{}), "26K25A"), 0, 1)
		})
	}
}

// A folder without permission to write. As root this says nothing, since root
// may write anywhere; TestReadOnlyFolder makes the disk refuse instead.
func TestFolderWithoutPermission(t *testing.T) {
	if os.Geteuid() == 0 {
		t.Skip("root may write anywhere")
	}
	dir := t.TempDir()
	s := open(t, dir, journal.Options{})
	want := add(t, holdBatch(t, s, "26K25A"), 0, 1)
	must(t, s.Close())
	must(t, os.Chmod(filepath.Join(dir, "journal.db"), 0o400))
	must(t, os.Chmod(dir, 0o500))
	t.Cleanup(func() { _ = os.Chmod(dir, 0o700) })
	before := snapshot(t, dir)
	reader := open(t, dir, journal.Options{ReadOnly: true})
	wantRecords(t, reader, "26K25A", want)
	must(t, reader.Close())
	_, err := journal.Open(dir, journal.Options{})
	wantIs(t, err, journal.ErrReadOnly)
	if !maps.Equal(before, snapshot(t, dir)) {
		t.Error("the folder changed")
	}
}

package journal_test

import (
	"errors"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"bench/internal/journal"
)

// filled makes a store with two batches and closes it.
func filled(t testing.TB, dir string) (a, b []journal.Record) {
	t.Helper()
	s, err := journal.Open(dir, journal.Options{})
	must(t, err)
	a = add(t, holdBatch(t, s, "26K25A"), 0, 9)
	b = add(t, holdBatch(t, s, "26K26B"), 0, 5)
	must(t, s.Close())
	return a, b
}

func TestBackupAndRestore(t *testing.T) {
	dir, file := t.TempDir(), filepath.Join(t.TempDir(), "monday.db")
	a, b := filled(t, dir)
	s := open(t, dir, journal.Options{ReadOnly: true})
	check, err := s.Backup(file, nil)
	must(t, err)
	if len(check.Batches) != 2 || check.Facts != 14 {
		t.Errorf("copied %+v", check)
	}
	_, err = s.Backup(file, nil)
	wantIs(t, err, fs.ErrExist)
	must(t, s.Close())

	// The day after, more is written; then the backup comes back.
	s = open(t, dir, journal.Options{})
	more := append(a, add(t, holdBatch(t, s, "26K25A"), 9, 11)...)
	_, err = journal.Restore(dir, file, journal.Options{}, nil)
	wantIs(t, err, journal.ErrBusy)
	must(t, s.Close())
	r, err := journal.Restore(dir, file, journal.Options{}, nil)
	must(t, err)
	if len(r.Gone) != 1 || r.Gone[0] != "batch 26K25A: the last 2 of 11 facts" || r.Facts != 14 {
		t.Errorf("restored %+v", r)
	}
	s = open(t, dir, journal.Options{})
	wantRecords(t, s, "26K25A", a)
	wantRecords(t, s, "26K26B", b)
	must(t, s.Close())

	// What was replaced is whole, and comes back the same way.
	_, err = journal.Restore(dir, r.Kept, journal.Options{}, nil)
	must(t, err)
	s = open(t, dir, journal.Options{})
	wantRecords(t, s, "26K25A", more)
	if kept := snapshot(t, filepath.Join(dir, "kept")); len(kept) != 2 {
		t.Errorf("kept are %v", slices.Collect(maps.Keys(kept)))
	}
	left, err := filepath.Glob(filepath.Join(dir, ".*"))
	if err != nil || len(left) > 0 {
		t.Errorf("left over: %v, %v", left, err)
	}
}

// A backup is one state of the store, whatever is written meanwhile.
func TestBackupWhileWriting(t *testing.T) {
	dir, out := t.TempDir(), t.TempDir()
	s := open(t, dir, journal.Options{})
	w := holdBatch(t, s, "26K25A")
	all := add(t, w, 0, 1)
	var work sync.WaitGroup
	stop := make(chan struct{})
	work.Go(func() {
		for i := 1; ; i++ {
			select {
			case <-stop:
				return
			default:
				all = append(all, add(t, w, i, i+1)...)
			}
		}
	})
	reader := open(t, dir, journal.Options{ReadOnly: true})
	for n := range 8 {
		file := filepath.Join(out, string(rune('a'+n)))
		check, err := reader.Backup(file, nil)
		must(t, err)
		other := t.TempDir()
		_, err = journal.Restore(other, file, journal.Options{}, nil)
		must(t, err)
		copied := open(t, other, journal.Options{})
		got, err := copied.Records("26K25A")
		if err != nil || len(got) != check.Facts {
			t.Errorf("%d of %d facts, %v", len(got), check.Facts, err)
		}
	}
	close(stop)
	work.Wait()
	wantRecords(t, s, "26K25A", all)
}

// A store that was cut off with facts in its log is kept with them, and comes
// back with them.
func TestRestoreOverACrash(t *testing.T) {
	live, dir, file := t.TempDir(), t.TempDir(), filepath.Join(t.TempDir(), "monday.db")
	s := open(t, live, journal.Options{})
	want := add(t, holdBatch(t, s, "26K25A"), 0, 3)
	_, err := s.Backup(file, nil)
	must(t, err)
	want = append(want, add(t, holdBatch(t, s, "26K26B"), 0, 2)...)
	for name, text := range snapshot(t, live) {
		must(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600))
	}
	r, err := journal.Restore(dir, file, journal.Options{}, nil)
	must(t, err)
	if len(r.Gone) != 1 || r.Facts != 3 {
		t.Errorf("restored %+v", r)
	}
	_, err = journal.Restore(dir, r.Kept, journal.Options{}, nil)
	must(t, err)
	s = open(t, dir, journal.Options{})
	wantRecords(t, s, "26K25A", want[:3])
	wantRecords(t, s, "26K26B", want[3:])
}

// What is no whole backup is refused, and the store stays as it is.
func TestRestoreRefuses(t *testing.T) {
	dir, source := t.TempDir(), t.TempDir()
	filled(t, dir)
	filled(t, source)
	good := []byte(snapshot(t, source)["journal.db"])
	newer := append([]byte{}, good...)
	newer[63] = 9 // user version, https://sqlite.org/fileformat2.html
	flipped := append([]byte{}, good...)
	at := strings.Index(string(good), `"milligrams": 500003`)
	flipped[at+16] ^= 1
	for name, c := range map[string]struct {
		data []byte
		want string
	}{
		"empty": {nil, "not a store"}, "text": {[]byte("low tide"), "not a store"},
		"newer": {newer, "newer program"}, "cut": {good[:len(good)-4096], "damaged"},
		"flipped": {flipped, "batch 26K2"}, "header": {good[:100], "damaged"},
	} {
		before := snapshot(t, dir)
		file := filepath.Join(t.TempDir(), name)
		must(t, os.WriteFile(file, c.data, 0o600))
		_, err := journal.Restore(dir, file, journal.Options{}, nil)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: got error %v", name, err)
		}
		if !maps.Equal(before, snapshot(t, dir)) {
			t.Errorf("%s: the store was changed", name)
		}
		if _, err := os.Stat(filepath.Join(dir, "kept")); !errors.Is(err, fs.ErrNotExist) {
			t.Errorf("%s: something was kept", name)
		}
	}
}

// A damaged store gives no backup: an older one is worth more.
func TestNoBackupOfADamagedStore(t *testing.T) {
	dir := t.TempDir()
	filled(t, dir)
	must(t, tamper(t, dir, dropTriggers+`UPDATE fact SET body = '{}' WHERE batch = '26K25A' AND seq = 4`))
	file := filepath.Join(t.TempDir(), "tuesday.db")
	_, err := open(t, dir, journal.Options{ReadOnly: true}).Backup(file, nil)
	wantDamage(t, err, 4, "checksum")
	if files := snapshot(t, filepath.Dir(file)); len(files) != 0 {
		t.Errorf("there are %d files", len(files))
	}
}

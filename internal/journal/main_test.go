package journal_test

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"bench/internal/journal"
)

// childEnv, when set, makes the test binary a second process: "job dir batch count".
const childEnv = "JOURNAL_TEST_CHILD"

func TestMain(m *testing.M) {
	if job := os.Getenv(childEnv); job != "" {
		if err := child(strings.Split(job, "\n")); err != nil {
			fmt.Println(err)
			os.Exit(1)
		}
		os.Exit(0)
	}
	os.Exit(m.Run())
}

// child restores or upgrades a store; or it holds a batch, says so, and appends
// facts, printing each number once it is acknowledged; with count 0 it waits to
// be killed instead.
func child(job []string) error {
	dir, batch := job[0], job[1]
	switch batch {
	case "restore":
		_, err := journal.Restore(dir, job[2], journal.Options{}, nil)
		return err
	case "upgrade":
		s, err := journal.Open(dir, journal.Options{})
		if err != nil {
			return err
		}
		return s.Close()
	}
	count, err := strconv.Atoi(job[2])
	if err != nil {
		return err
	}
	s, err := journal.Open(dir, journal.Options{})
	if err != nil {
		return err
	}
	w, err := s.Hold(batch, stamp(0))
	if err != nil {
		return err
	}
	fmt.Println("holding")
	if count == 0 {
		time.Sleep(time.Minute)
	}
	for i := range count {
		r, err := w.Append("weighed", weighing(i), []string{"OL-2291"}, stamp(i))
		if err != nil {
			return err
		}
		fmt.Println(r.Seq)
	}
	return s.Close()
}

func childProcess(t *testing.T, dir, batch string, count int) *exec.Cmd {
	t.Helper()
	exe, err := os.Executable()
	must(t, err)
	cmd := exec.Command(exe)
	cmd.Env = append(os.Environ(), childEnv+"="+strings.Join([]string{dir, batch, strconv.Itoa(count)}, "\n"))
	cmd.Stderr = os.Stderr
	return cmd
}

var began = time.Date(2026, 11, 25, 9, 25, 45, 123456789, time.FixedZone("", 3600))

// stamp returns the stamp of the i-th fact, a minute after the one before.
func stamp(i int) journal.Stamp {
	since := time.Duration(i) * time.Minute
	return journal.Stamp{Wall: began.Add(since), BootID: "0b5f7f0e", SinceBoot: time.Hour + since}
}

func weighing(i int) []byte {
	return fmt.Appendf(nil, `{"material": "olive oil", "milligrams": %d}`, 500_000+i)
}

func must(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

func open(t testing.TB, dir string, opt journal.Options) *journal.Store {
	t.Helper()
	s, err := journal.Open(dir, opt)
	must(t, err)
	t.Cleanup(func() { must(t, s.Close()) })
	return s
}

func holdBatch(t testing.TB, s *journal.Store, batch string) *journal.Writer {
	t.Helper()
	w, err := s.Hold(batch, stamp(0))
	must(t, err)
	return w
}

// add appends the facts numbered from to to-1 and returns what Append returned.
func add(t testing.TB, w *journal.Writer, from, to int) []journal.Record {
	t.Helper()
	var rs []journal.Record
	for i := from; i < to; i++ {
		r, err := w.Append("weighed", weighing(i), []string{fmt.Sprintf("OL-%d", i)}, stamp(i))
		must(t, err)
		rs = append(rs, r)
	}
	return rs
}

// wantRecords checks that the store has exactly these facts of a batch.
func wantRecords(t testing.TB, s *journal.Store, batch string, want []journal.Record) {
	t.Helper()
	got, err := s.Records(batch)
	must(t, err)
	if d := diff(want, got); d != "" {
		t.Fatalf("facts of %s (-want +got):\n%s", batch, d)
	}
}

// diff says how two values differ, nil and empty being one; the quick way first.
func diff(want, got any) string {
	if reflect.DeepEqual(want, got) {
		return ""
	}
	return cmp.Diff(want, got, cmpopts.EquateEmpty())
}

func wantIs(t testing.TB, err, target error) {
	t.Helper()
	if !errors.Is(err, target) {
		t.Fatalf("got error %v, want one that is %v", err, target)
	}
}

// snapshot returns the bytes of the files in a folder.
func snapshot(t testing.TB, dir string) map[string]string {
	t.Helper()
	files := map[string]string{}
	entries, err := os.ReadDir(dir)
	must(t, err)
	for _, e := range entries {
		if e.IsDir() {
			continue
		}
		b, err := os.ReadFile(filepath.Join(dir, e.Name()))
		must(t, err)
		files[e.Name()] = string(b)
	}
	return files
}

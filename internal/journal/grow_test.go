package journal

import (
	"fmt"
	"maps"
	"testing"
	"time"

	"github.com/ncruces/go-sqlite3"
)

// TestWhatDoesNotGrow counts the steps of SQLite's machine: what a start, the
// first screen and the rack ask takes as many of them with a long history.
func TestWhatDoesNotGrow(t *testing.T) {
	short, long := stepsWith(t, 10), stepsWith(t, 80)
	if len(short) != 4 || !maps.Equal(short, long) {
		t.Errorf("with 10 closed batches %v, with 80 %v", short, long)
	}
}

func stepsWith(t *testing.T, closed int) map[string]int {
	t.Helper()
	s, err := Open(t.TempDir(), Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	for n := range closed + 2 {
		at := Stamp{Wall: time.Date(2026, 3, 2, 9, n, 0, 0, time.UTC)}
		w, err := s.Hold(fmt.Sprintf("26C%03d", n), at)
		for _, kind := range []string{"started", "weighed", "closed"} {
			if err == nil && (kind != "closed" || n < closed) {
				_, err = w.Append(kind, []byte("{}"), []string{"lot:1"}, at)
			}
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	steps := map[string]int{}
	for name, ask := range map[string]func() (int, error){
		"under way": func() (int, error) { heads, err := s.UnderWay(); return len(heads), err },
		"ended":     func() (int, error) { heads, err := s.Ended(5); return len(heads), err },
		"newest":    func() (int, error) { code, err := s.Newest(); return len(code), err },
		"records":   func() (int, error) { facts, err := s.Records("26C001"); return len(facts), err },
	} {
		before := vmSteps(s)
		if n, err := ask(); n == 0 || err != nil {
			t.Fatal(name, n, err)
		}
		steps[name] = vmSteps(s) - before
	}
	return steps
}

func vmSteps(s *Store) (n int) {
	for _, stmt := range s.db.stmts {
		n += stmt.Status(sqlite3.STMTSTATUS_VM_STEP, false)
	}
	return n
}

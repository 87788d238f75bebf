package journal_test

import (
	"errors"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"bench/internal/brittle"
	"bench/internal/journal"
)

// TestPowerCut records every change of the disk that a day's work makes, then
// cuts the power after each of them: what was not flushed is lost, or partly
// there, torn into sectors, in any order. A delete that did not flush the folder
// may be undone. What was acknowledged by then must be found.
func TestPowerCut(t *testing.T) {
	p := newTap(t)
	var log []brittle.Op
	var acks []int // length of the log when a fact was acknowledged
	p.Watch(func(o brittle.Op) error { log = append(log, o); return nil })
	var all []journal.Record
	dir := filepath.Join(t.TempDir(), "store")
	for _, until := range []int{3, 5} {
		s := open(t, dir, journal.Options{VFS: t.Name()})
		w := holdBatch(t, s, "26K25A")
		for i := len(all); i < until; i++ {
			all = append(all, add(t, w, i, i+1)...)
			acks = append(acks, len(log))
		}
		must(t, s.Close())
	}
	p.Watch(nil)

	rng := rand.New(rand.NewPCG(20261125, 0))
	for cut := range len(log) + 1 {
		acked := 0
		for _, at := range acks {
			if at <= cut {
				acked++
			}
		}
		for _, keep := range []float64{0, 0.5, 1} {
			after := t.TempDir()
			must(t, brittle.PowerCut(after, log[:cut], keep, rng))
			wantAfterCut(t, after, all, acked, cut, keep)
		}
	}
	t.Logf("%d places to cut the power", len(log))
}

func wantAfterCut(t *testing.T, dir string, all []journal.Record, acked, cut int, keep float64) {
	t.Helper()
	main := snapshot(t, dir)["journal.db"]
	reader, err := journal.Open(dir, journal.Options{ReadOnly: true})
	switch {
	case err == nil:
		must(t, reader.Close())
	case acked > 0 || !errors.Is(err, fs.ErrNotExist):
		t.Fatalf("cut %d, keep %v: a reader got %v", cut, keep, err)
	}
	if snapshot(t, dir)["journal.db"] != main {
		t.Fatalf("cut %d, keep %v: a reader changed the main file", cut, keep)
	}
	s, err := journal.Open(dir, journal.Options{})
	if err != nil {
		t.Fatalf("cut %d, keep %v: %v", cut, keep, err)
	}
	found, err := s.Records("26K25A")
	must(t, err)
	if len(found) < acked || len(found) > acked+1 {
		t.Fatalf("cut %d, keep %v: %d facts acknowledged, %d found", cut, keep, acked, len(found))
	}
	if d := diff(all[:len(found)], found); d != "" {
		t.Fatalf("cut %d, keep %v (-want +got):\n%s", cut, keep, d)
	}
	add(t, holdBatch(t, s, "26K25A"), 7, 8) // and the work goes on
	must(t, s.Close())
	must(t, os.RemoveAll(dir))
}

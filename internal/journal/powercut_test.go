package journal_test

import (
	"errors"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"bench/internal/journal"
)

// TestPowerCut records every change of the disk that a day's work makes, then
// cuts the power after each of them: what was not flushed is lost, or partly
// there, torn into sectors, in any order. A delete that did not flush the folder
// may be undone. What was acknowledged by then must be found.
func TestPowerCut(t *testing.T) {
	p := newTap(t)
	var log []op
	var acks []int // length of the log when a fact was acknowledged
	p.watch(func(o op) error { log = append(log, o); return nil })
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
	p.watch(nil)

	rng := rand.New(rand.NewPCG(20261125, 0))
	for cut := range len(log) + 1 {
		acked := 0
		for _, at := range acks {
			if at <= cut {
				acked++
			}
		}
		for _, keep := range []float64{0, 0.5, 1} {
			after := powerCut(t, log[:cut], keep, rng)
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

// platter is one file: what is flushed, and what waits.
type platter struct {
	flushed []byte
	onDisk  bool // its entry in the folder is flushed
	gone    bool // deleted, perhaps not for good
	fresh   bool // the driver flushes the folder with the next sync
	pending []op
}

// powerCut plays the log on empty platters, keeps each part of what waits with
// the given probability, and returns a folder with the result.
func powerCut(t *testing.T, log []op, keep float64, rng *rand.Rand) string {
	t.Helper()
	files := map[string]*platter{}
	for _, o := range log {
		f := files[o.file]
		if f == nil {
			f = &platter{}
			files[o.file] = f
		}
		switch o.what {
		case "create":
			f.fresh = o.file != "journal.db"
			if f.gone { // a new file; the old one is back only if this is lost too
				f.gone = false
				f.pending = append(f.pending, op{what: "truncate"})
			}
		case "sync":
			f.apply(1, rng)
			if f.fresh {
				flushFolder(files)
				f.fresh = false
			}
		case "delete":
			f.gone, f.pending = true, nil
			if o.dir {
				flushFolder(files)
			}
		default:
			f.pending = append(f.pending, o)
		}
	}
	dir := t.TempDir()
	for name, f := range files {
		f.apply(keep, rng)
		if (f.onDisk || rng.Float64() < keep) && !(f.gone && rng.Float64() < keep) {
			must(t, os.WriteFile(filepath.Join(dir, name), f.flushed, 0o600))
		}
	}
	return dir
}

// flushFolder makes all that was created or deleted so for good.
func flushFolder(files map[string]*platter) {
	for name, f := range files {
		if f.onDisk = true; f.gone {
			delete(files, name)
		}
	}
}

// apply flushes each sector of what waits with the given probability.
func (f *platter) apply(keep float64, rng *rand.Rand) {
	const sector = 512
	for _, o := range f.pending {
		if o.what == "truncate" {
			if rng.Float64() < keep {
				f.resize(int(o.off))
			}
			continue
		}
		for at := 0; at < len(o.data); {
			to := min(len(o.data), at+sector-(int(o.off)+at)%sector)
			if rng.Float64() < keep {
				f.resize(max(len(f.flushed), int(o.off)+to))
				copy(f.flushed[int(o.off)+at:], o.data[at:to])
			}
			at = to
		}
	}
	f.pending = nil
}

func (f *platter) resize(size int) {
	f.flushed = append(f.flushed, make([]byte, max(0, size-len(f.flushed)))...)[:size]
}

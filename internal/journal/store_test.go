package journal_test

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"bench/internal/journal"
)

func TestRoundTripAndReopen(t *testing.T) {
	// A name with everything that a URI could misread.
	dir := filepath.Join(t.TempDir(), "harbour workshop", "50% #1?", "store")
	s := open(t, dir, journal.Options{})
	w := holdBatch(t, s, "26K25A")
	want := add(t, w, 0, 5)
	wantRecords(t, s, "26K25A", want)
	if want[0].Seq != 1 || want[4].Seq != 5 || want[4].Stamp.Wall.Format(time.RFC3339Nano) != "2026-11-25T09:29:45.123456789+01:00" {
		t.Errorf("unexpected last record %+v", want[4])
	}
	must(t, w.Release())
	must(t, s.Close())
	if files := snapshot(t, dir); len(files) != 1 || files["journal.db"] == "" {
		t.Errorf("a clean close left more than the main file: %d files", len(files))
	}

	s = open(t, dir, journal.Options{})
	wantRecords(t, s, "26K25A", want)
	want = append(want, add(t, holdBatch(t, s, "26K25A"), 5, 7)...)
	wantRecords(t, s, "26K25A", want)
	if rs, err := s.Records("26K26B"); err != nil || len(rs) != 0 {
		t.Errorf("an unknown batch gave %v, %v", rs, err)
	}
}

func TestFoldersArePrivate(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "a", "store")
	holdBatch(t, open(t, dir, journal.Options{}), "26K25A")
	for _, d := range []string{dir, filepath.Join(dir, "hold")} {
		fi, err := os.Stat(d)
		must(t, err)
		if fi.Mode().Perm() != 0o700 {
			t.Errorf("%s has mode %v", d, fi.Mode())
		}
	}
	for _, name := range []string{"journal.db", "journal.db-wal", "hold/26K25A.lock"} {
		fi, err := os.Stat(filepath.Join(dir, name))
		must(t, err)
		if fi.Mode().Perm() != 0o600 {
			t.Errorf("%s has mode %v", name, fi.Mode())
		}
	}
}

func TestStampsComeBackAsGiven(t *testing.T) {
	lisbon := time.FixedZone("LMT", -(36*60 + 45)) // local mean time of Lisbon, -00:36:45
	for _, wall := range []time.Time{
		time.Now(),
		time.Date(2026, 3, 29, 2, 30, 0, 0, time.UTC),
		time.Date(2026, 11, 25, 9, 0, 0, 100_000_000, time.FixedZone("", 5*3600+45*60)),
		time.Date(1911, 1, 1, 0, 0, 0, 1, lisbon),
	} {
		s := open(t, t.TempDir(), journal.Options{})
		w := holdBatch(t, s, "26K25A")
		r, err := w.Append("noted", []byte(`{}`), nil, journal.Stamp{Wall: wall, SinceBoot: -1})
		must(t, err)
		wantRecords(t, s, "26K25A", []journal.Record{r})
		_, got := r.Stamp.Wall.Zone()
		_, given := wall.Zone()
		if !r.Stamp.Wall.Equal(wall) || got != given-given%60 {
			t.Errorf("%v came back as %v", wall, r.Stamp.Wall)
		}
	}
}

func TestBatchesAndSearch(t *testing.T) {
	s := open(t, t.TempDir(), journal.Options{})
	for _, batch := range []string{"26K25A", "26A01A", "26Z01A"} { // in the order of beginning
		add(t, holdBatch(t, s, batch), 0, 2)
	}
	w, err := s.Hold("26M01A", stamp(9))
	must(t, err)
	_, err = w.Append("begun", []byte(`{}`), []string{"NaOH-7", "NaOH-7", "OL-1"}, stamp(9))
	must(t, err)

	heads, err := s.Batches()
	must(t, err)
	want := []journal.Head{
		{Batch: "26M01A", First: stamp(9).Wall, Last: stamp(9).Wall, Seq: 1},
		{Batch: "26Z01A", First: stamp(0).Wall, Last: stamp(1).Wall, Seq: 2},
		{Batch: "26A01A", First: stamp(0).Wall, Last: stamp(1).Wall, Seq: 2},
		{Batch: "26K25A", First: stamp(0).Wall, Last: stamp(1).Wall, Seq: 2},
	}
	if d := diff(want, heads); d != "" {
		t.Errorf("batches (-want +got):\n%s", d)
	}
	newest, err := s.Newest()
	if err != nil || newest != "26M01A" {
		t.Errorf("the newest is %q, %v", newest, err)
	}
	_, err = w.Append("closed", []byte(`{}`), nil, stamp(10))
	must(t, err)
	_, err = w.Append("noted", []byte(`{}`), nil, stamp(11))
	must(t, err)
	open, err := s.UnderWay()
	must(t, err)
	if d := diff(want[1:], open); d != "" {
		t.Errorf("under way (-want +got):\n%s", d)
	}
	over, err := s.Ended(9)
	must(t, err)
	ended := []journal.Head{{Batch: "26M01A", First: stamp(9).Wall, Last: stamp(11).Wall, Seq: 3, Ended: true}}
	if d := diff(ended, over); d != "" {
		t.Errorf("ended (-want +got):\n%s", d)
	}
	for term, want := range map[string][]string{
		"OL-1": {"26A01A", "26K25A", "26M01A", "26Z01A"}, "NaOH-7": {"26M01A"}, "OL-": nil, "ol-1": nil,
	} {
		got, err := s.Search(term)
		must(t, err)
		if d := diff(want, got); d != "" {
			t.Errorf("search for %q (-want +got):\n%s", term, d)
		}
	}
}

func TestAppendRefusesWhatItCannotKeep(t *testing.T) {
	s := open(t, t.TempDir(), journal.Options{})
	w := holdBatch(t, s, "26K25A")
	for name, c := range map[string]struct {
		kind, body, term string
		wall             time.Time
		want             string
	}{
		"kind": {"", `{}`, "", began, "no kind"},
		"body": {"weighed", `{"grams": 1,}`, "", began, "not JSON"},
		"utf8": {"weighed", "\"\xff\"", "", began, "not valid UTF-8"},
		"term": {"weighed", `{}`, "lot \xff", began, "not valid UTF-8"},
		"year": {"weighed", `{}`, "", began.AddDate(9000, 0, 0), "year 11026"},
		"size": {"weighed", `"` + strings.Repeat("a", 16<<20) + `"`, "", began, "at most"},
	} {
		_, err := w.Append(c.kind, []byte(c.body), []string{c.term}, journal.Stamp{Wall: c.wall})
		if err == nil || !strings.Contains(err.Error(), c.want) || !strings.HasPrefix(err.Error(), "journal: fact 1 of batch 26K25A was not saved: ") {
			t.Errorf("%s: got error %v", name, err)
		}
	}
	wantRecords(t, s, "26K25A", nil)
	add(t, w, 0, 1)
	for _, code := range []string{"", "\xff", strings.Repeat("#", 100)} {
		if _, err := s.Hold(code, stamp(0)); err == nil {
			t.Errorf("batch code %q was taken", code)
		}
	}
}

func TestClosedAndReleased(t *testing.T) {
	s := open(t, t.TempDir(), journal.Options{})
	w := holdBatch(t, s, "26K25A")
	v := holdBatch(t, s, "26K26B")
	must(t, w.Release())
	must(t, w.Release())
	_, err := w.Append("weighed", weighing(0), nil, stamp(0))
	wantIs(t, err, journal.ErrClosed)
	must(t, s.Close())
	must(t, s.Close())
	_, err = v.Append("weighed", weighing(0), nil, stamp(0))
	wantIs(t, err, journal.ErrClosed)
	_, err = s.Hold("26K26B", stamp(0))
	wantIs(t, err, journal.ErrClosed)
	_, err = s.Batches()
	wantIs(t, err, journal.ErrClosed)
}

func TestReadOnly(t *testing.T) {
	dir := t.TempDir()
	_, err := journal.Open(filepath.Join(dir, "none"), journal.Options{ReadOnly: true})
	wantIs(t, err, fs.ErrNotExist)
	if len(snapshot(t, dir)) != 0 {
		t.Error("reading a store that is not there made something")
	}

	s := open(t, dir, journal.Options{})
	w := holdBatch(t, s, "26K25A")
	want := add(t, w, 0, 3)
	reader := open(t, dir, journal.Options{ReadOnly: true})
	wantRecords(t, reader, "26K25A", want)
	want = append(want, add(t, w, 3, 4)...)
	wantRecords(t, reader, "26K25A", want) // a reader follows a running writer
	_, err = reader.Hold("26K26B", stamp(0))
	wantIs(t, err, journal.ErrReadOnly)

	must(t, s.Close())
	before := snapshot(t, dir)["journal.db"]
	must(t, reader.Close())
	if snapshot(t, dir)["journal.db"] != before {
		t.Error("a reader changed the main file")
	}
	must(t, open(t, dir, journal.Options{}).Close())
	before = snapshot(t, dir)["journal.db"]
	reader = open(t, dir, journal.Options{ReadOnly: true})
	wantRecords(t, reader, "26K25A", want)
	must(t, reader.Close())
	if after := snapshot(t, dir); len(after) != 1 || after["journal.db"] != before {
		t.Errorf("a reader of a store at rest left a trace: %d files", len(after))
	}
}

func TestManyCreateAtOnce(t *testing.T) {
	for range 20 {
		dir := filepath.Join(t.TempDir(), "store")
		var wg sync.WaitGroup
		for _, batch := range []string{"26K25A", "26K25B", "26K25C", "26K25D"} {
			wg.Go(func() {
				s, err := journal.Open(dir, journal.Options{})
				if err != nil {
					t.Error(err)
					return
				}
				w, err := s.Hold(batch, stamp(0))
				if err == nil {
					_, err = w.Append("begun", []byte(`{}`), nil, stamp(0))
				}
				if err != nil {
					t.Error(err)
				}
				if err := s.Close(); err != nil {
					t.Error(err)
				}
			})
		}
		wg.Wait()
		heads, err := open(t, dir, journal.Options{}).Batches()
		if err != nil || len(heads) != 4 {
			t.Fatalf("%d batches, %v", len(heads), err)
		}
	}
}

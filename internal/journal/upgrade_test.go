package journal_test

import (
	"errors"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"bench/internal/brittle"
	"bench/internal/journal"
)

// fixture copies a store that an earlier version wrote into a new folder.
func fixture(t *testing.T, name string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("../../testdata/stores", name))
	must(t, err)
	dir := t.TempDir()
	must(t, os.WriteFile(filepath.Join(dir, "journal.db"), text, 0o600))
	return dir
}

// ended are the batches of the fixtures with their facts, the newest first.
func wantFixture(t *testing.T, s *journal.Store) {
	t.Helper()
	heads, err := s.Batches()
	must(t, err)
	if len(heads) != 2 || heads[0].Batch != "260303A" || heads[0].Seq != 33 || heads[1].Batch != "260302A" || heads[1].Seq != 101 {
		t.Errorf("batches %+v", heads)
	}
	open, err := s.UnderWay()
	must(t, err)
	if len(open) != 1 || open[0].Batch != "260303A" || open[0].Ended {
		t.Errorf("under way %+v", open)
	}
	check, err := s.Verify(nil)
	must(t, err)
	if check.Err() != nil || check.Facts != 134 {
		t.Errorf("%d facts, %v", check.Facts, check.Err())
	}
	found, err := s.Search("lot:OO-1180")
	must(t, err)
	if !slices.Equal(found, []string{"260302A", "260303A"}) {
		t.Errorf("a lot is found in %v", found)
	}
}

// everyVersion are the stores that earlier programs wrote.
var everyVersion = []string{"version-1", "version-2"}

// Stores of every released version are read as they are, and open to be written
// once what was there before is kept.
func TestUpgradeOfReleasedVersions(t *testing.T) {
	for _, name := range everyVersion {
		dir := fixture(t, name+".db")
		before := snapshot(t, dir)
		reader := open(t, dir, journal.Options{ReadOnly: true})
		wantFixture(t, reader)
		_, err := reader.Backup(filepath.Join(t.TempDir(), "monday.db"), nil)
		must(t, err)
		must(t, reader.Close())
		if !maps.Equal(snapshot(t, dir), before) {
			t.Errorf("%s: a reader changed the store", name)
		}
		s := open(t, dir, journal.Options{})
		wantFixture(t, s)
		must(t, s.Close())
		kept := snapshot(t, filepath.Join(dir, "kept"))
		if len(kept) != 1 || kept[name+".db"] == "" {
			t.Fatalf("%s: kept are %v", name, slices.Collect(maps.Keys(kept)))
		}
		// The copy is a store of the version before, and nothing is missing.
		again := t.TempDir()
		_, err = journal.Restore(again, filepath.Join(dir, "kept", name+".db"), journal.Options{}, nil)
		must(t, err)
		wantFixture(t, open(t, again, journal.Options{}))

		wantFixture(t, open(t, dir, journal.Options{}))
		if again := snapshot(t, filepath.Join(dir, "kept")); !maps.Equal(kept, again) {
			t.Errorf("%s: opening it once more kept another copy", name)
		}
	}
}

// What a reader sees of an older store follows a program that still writes it,
// and goes on when one upgrades it.
func TestReadOlderWhileItChanges(t *testing.T) {
	for _, name := range everyVersion {
		dir := fixture(t, name+".db")
		reader := open(t, dir, journal.Options{ReadOnly: true})
		wantFixture(t, reader)
		must(t, tamper(t, dir, `INSERT INTO fact (batch, seq, wall, boot, since_boot, kind, body, terms, sum)
			SELECT batch, seq + 1, '2026-03-09T09:00:00.000000000Z', boot, since_boot, 'closed', body, terms, sum FROM fact WHERE batch = '260303A' AND seq = 33`))
		heads, err := reader.Batches()
		must(t, err)
		want := journal.Head{Batch: "260303A", First: heads[0].First, Last: time.Date(2026, 3, 9, 9, 0, 0, 0, time.UTC), Seq: 34, Ended: true}
		if d := diff(want, heads[0]); d != "" {
			t.Errorf("%s: (-want +got):\n%s", name, d)
		}
		must(t, open(t, dir, journal.Options{}).Close())
		again, err := reader.Batches()
		must(t, err)
		if d := diff(heads, again); d != "" {
			t.Errorf("%s: after the upgrade (-want +got):\n%s", name, d)
		}
	}
}

const nextStep = `ALTER TABLE batch ADD COLUMN place TEXT NOT NULL DEFAULT '';
	CREATE INDEX fact_kind ON fact (kind, batch);`

func TestUpgradeByAStep(t *testing.T) {
	next := journal.Options{}.WithStep(nextStep)
	for name, dir := range map[string]string{"one step": t.TempDir(), "two steps": fixture(t, "version-1.db")} {
		if name == "one step" {
			s := open(t, dir, journal.Options{})
			add(t, holdBatch(t, s, "26K25A"), 0, 3)
			must(t, s.Close())
		}
		s := open(t, dir, next)
		check, err := s.Verify(nil)
		must(t, err)
		must(t, check.Err())
		add(t, holdBatch(t, s, "26K26B"), 0, 2)
		must(t, s.Close())
		if kept := snapshot(t, filepath.Join(dir, "kept")); len(kept) != 1 {
			t.Errorf("%s: kept are %v", name, slices.Collect(maps.Keys(kept)))
		}
		_, err = journal.Open(dir, journal.Options{})
		var newer *journal.NewerError
		if !errors.As(err, &newer) || *newer != (journal.NewerError{Found: 4, Known: 3}) {
			t.Errorf("%s: the program before it got %v", name, err)
		}
	}
}

// A step that fails leaves the store as it was: all steps are one transaction.
func TestUpgradeFails(t *testing.T) {
	dir := fixture(t, "version-1.db")
	before := snapshot(t, dir)["journal.db"]
	_, err := journal.Open(dir, journal.Options{}.WithStep(nextStep+`INSERT INTO nowhere VALUES (1);`))
	if err == nil || !strings.Contains(err.Error(), "no such table: nowhere") {
		t.Fatalf("got error %v", err)
	}
	if snapshot(t, dir)["journal.db"] != before {
		t.Error("the store was changed")
	}
	wantFixture(t, open(t, dir, journal.Options{}))
}

// No upgrade without a copy, and a fault anywhere in it loses nothing.
func TestFaultWhileUpgrading(t *testing.T) {
	eachFault(t, func(t *testing.T, p *brittle.Disk, f *brittle.Fault) {
		dir := fixture(t, "version-1.db")
		p.Watch(f.Before)
		defer p.Watch(nil)
		s, err := journal.Open(dir, journal.Options{VFS: t.Name()})
		p.Watch(nil)
		if err != nil {
			s = open(t, dir, journal.Options{VFS: t.Name()})
		}
		wantFixture(t, s)
		must(t, s.Close())
		if kept := snapshot(t, filepath.Join(dir, "kept")); kept["version-1.db"] == "" {
			t.Errorf("kept are %v", slices.Collect(maps.Keys(kept)))
		}
	})
}

package journal_test

import (
	"errors"
	"path/filepath"
	"strings"
	"testing"

	"github.com/ncruces/go-sqlite3"

	"bench/internal/journal"
)

// tamper changes the database of a store behind its back.
func tamper(t *testing.T, dir, sql string) error {
	t.Helper()
	c, err := sqlite3.Open(filepath.Join(dir, "journal.db"))
	must(t, err)
	defer func() { must(t, c.Close()) }()
	return c.Exec(sql)
}

const dropTriggers = `DROP TRIGGER fact_update; DROP TRIGGER fact_delete; DROP TRIGGER fact_insert;`

// The sums below were made with sha256sum (GNU coreutils) over netstrings
// written by hand, the first beginning
// 0:,6:26K25A,1:1,35:2026-11-25T09:25:45.123456789+01:00,8:0b5f7f0e,13:3600000000000,7:weighed,
func TestSumsAgainstCoreutils(t *testing.T) {
	w := holdBatch(t, open(t, t.TempDir(), journal.Options{}), "26K25A")
	for i, want := range []string{
		"bd674368ac038148f2fbd2f50c67d22ce24dced732995a2fb36c906cd89bceee",
		"7a263505392f6a0af7d68b577dee062695e88d22d69f4ae0913dc8c1a01977c1",
	} {
		r, err := w.Append("weighed", weighing(i), [][]string{{"OL-2291", "NaOH-7"}, nil}[i], stamp(i))
		must(t, err)
		if r.Sum != want {
			t.Errorf("the sum of fact %d is %s, want %s", r.Seq, r.Sum, want)
		}
	}
}

func TestDatabaseRefusesChanges(t *testing.T) {
	dir := t.TempDir()
	s := open(t, dir, journal.Options{})
	want := add(t, holdBatch(t, s, "26K25A"), 0, 2)
	insert := ` INTO fact SELECT 9, batch, 2, wall, boot, since_boot, kind, '{}', terms, sum FROM fact WHERE seq = 2`
	for sql, refusal := range map[string]string{
		`UPDATE fact SET body = '{}'`:                   "never changed",
		`DELETE FROM fact`:                              "never deleted",
		`INSERT OR REPLACE` + insert:                    "only added",
		`REPLACE` + insert:                              "only added",
		`INSERT` + strings.Replace(insert, "2", "4", 1): "only added",
		`REPLACE` + strings.Replace(strings.Replace(insert, "2", "3", 1), "9", "1", 1): "only added",
	} {
		if err := tamper(t, dir, sql); err == nil || !strings.Contains(err.Error(), refusal) {
			t.Errorf("%s gave %v", sql, err)
		}
	}
	wantRecords(t, s, "26K25A", want)
}

func TestDamageIsNamed(t *testing.T) {
	for name, c := range map[string]struct {
		sql  string
		seq  int
		what string
	}{
		"body":      {`UPDATE fact SET body = replace(body, '500001', '500011') WHERE seq = 2`, 2, "checksum"},
		"kind":      {`UPDATE fact SET kind = 'Weighed' WHERE seq = 2`, 2, "checksum"},
		"boot":      {`UPDATE fact SET boot = boot || '0' WHERE seq = 2`, 2, "checksum"},
		"since":     {`UPDATE fact SET since_boot = since_boot + 1 WHERE seq = 2`, 2, "checksum"},
		"wall":      {`UPDATE fact SET wall = replace(wall, '45.1', '45.2') WHERE seq = 2`, 2, "checksum"},
		"offset":    {`UPDATE fact SET wall = replace(wall, '09:26', '08:26') WHERE seq = 2`, 2, "checksum"},
		"no time":   {`UPDATE fact SET wall = 'yesterday' WHERE seq = 2`, 2, "time cannot be read"},
		"terms":     {`UPDATE fact SET terms = '["OL-2"]' WHERE seq = 2`, 2, "checksum"},
		"no terms":  {`UPDATE fact SET terms = '["OL-1' WHERE seq = 2`, 2, "terms cannot be read"},
		"spaces":    {`UPDATE fact SET terms = ' ' || terms WHERE seq = 2`, 2, "checksum"},
		"sum":       {`UPDATE fact SET sum = upper(sum) WHERE seq = 2`, 2, "checksum"},
		"missing":   {`DELETE FROM fact WHERE seq = 2`, 2, "missing, the next one is number 3"},
		"first":     {`DELETE FROM fact WHERE seq = 1`, 1, "missing, the next one is number 2"},
		"closed up": {`DELETE FROM fact WHERE seq = 2; UPDATE fact SET seq = 2 WHERE seq = 3`, 2, "checksum"},
		"swapped": {`UPDATE fact SET seq = 9 WHERE seq = 2; UPDATE fact SET seq = 2 WHERE seq = 3;
			UPDATE fact SET seq = 3 WHERE seq = 9`, 2, "checksum"},
		"other batch": {`UPDATE fact SET batch = 'X' WHERE batch = '26K25A' AND seq = 2;
			UPDATE fact SET batch = '26K25A' WHERE batch = '26K26B' AND seq = 2`, 2, "checksum"},
	} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			s := open(t, dir, journal.Options{})
			w := holdBatch(t, s, "26K25A")
			want := add(t, w, 0, 3)
			must(t, w.Release())
			other := add(t, holdBatch(t, s, "26K26B"), 0, 3)
			must(t, tamper(t, dir, dropTriggers+strings.ReplaceAll(c.sql, "WHERE seq", "WHERE batch = '26K25A' AND seq")))

			got, err := s.Records("26K25A")
			wantDamage(t, err, c.seq, c.what)
			if d := diff(want[:c.seq-1], got); d != "" {
				t.Errorf("facts before the damage (-want +got):\n%s", d)
			}
			_, err = s.Hold("26K25A", stamp(0))
			wantDamage(t, err, c.seq, c.what)
			if heads, err := s.Batches(); err != nil || len(heads) < 2 {
				t.Errorf("%d batches are listed, %v", len(heads), err)
			}
			if name != "other batch" {
				wantRecords(t, s, "26K26B", other)
			}
		})
	}
}

func wantDamage(t *testing.T, err error, seq int, what string) {
	t.Helper()
	var damage *journal.DamageError
	if !errors.As(err, &damage) {
		t.Fatalf("got error %v, want a DamageError", err)
	}
	if damage.Batch != "26K25A" || damage.Seq != seq || !strings.Contains(damage.What, what) {
		t.Errorf("the damage is said to be %+v, want fact %d, %s", damage, seq, what)
	}
}

// A batch that changes under its writer is not written on.
func TestAppendChecksTheTail(t *testing.T) {
	for name, sql := range map[string]string{
		"cut":     `DELETE FROM fact WHERE seq = 2`,
		"longer":  `INSERT INTO fact SELECT 9, batch, 3, wall, boot, since_boot, kind, body, terms, sum FROM fact WHERE seq = 2`,
		"changed": `UPDATE fact SET sum = 'x' WHERE seq = 2`,
	} {
		dir := t.TempDir()
		w := holdBatch(t, open(t, dir, journal.Options{}), "26K25A")
		add(t, w, 0, 2)
		must(t, tamper(t, dir, dropTriggers+sql))
		_, err := w.Append("weighed", weighing(2), nil, stamp(2))
		if !errors.Is(err, journal.ErrChanged) || !strings.Contains(err.Error(), "fact 3 of batch 26K25A was not saved") {
			t.Errorf("%s: got error %v", name, err)
		}
	}
}

// What the list of batches says is held against the facts.
func TestWrongList(t *testing.T) {
	for _, set := range []string{"ended = 1", "begun = touched", "touched = begun"} {
		dir := t.TempDir()
		filled(t, dir)
		must(t, tamper(t, dir, "UPDATE batch SET "+set+" WHERE code = '26K25A'"))
		check, err := open(t, dir, journal.Options{ReadOnly: true}).Verify(nil)
		must(t, err)
		if len(check.File) != 1 || !strings.Contains(check.File[0], "the list of batches is wrong on when batch 26K25A") || check.Facts != 14 {
			t.Errorf("%s: %+v", set, check)
		}
	}
}

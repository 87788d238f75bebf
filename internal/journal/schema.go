package journal

import (
	"fmt"

	"github.com/ncruces/go-sqlite3"
)

// applicationID marks a database file as a store ("bnch" in ASCII); see
// https://sqlite.org/fileformat2.html, offset 68.
const applicationID = 0x626e6368

// upgrades lead from version 0, an empty file, to the version this program
// writes, one transaction each. A released step is never edited: add one.
func upgrades() []string {
	return []string{schema1}
}

const schema1 = `CREATE TABLE fact (
	id         INTEGER PRIMARY KEY,  -- order of arrival over all batches
	batch      TEXT    NOT NULL,
	seq        INTEGER NOT NULL CHECK (seq > 0),
	wall       TEXT    NOT NULL,     -- RFC 3339 with nine digits and offset
	boot       TEXT    NOT NULL,
	since_boot INTEGER NOT NULL,     -- nanoseconds
	kind       TEXT    NOT NULL,
	body       TEXT    NOT NULL,     -- JSON
	terms      TEXT    NOT NULL,     -- JSON array of strings
	sum        TEXT    NOT NULL,
	UNIQUE (batch, seq)
) STRICT;
CREATE TABLE term (
	term  TEXT NOT NULL,
	batch TEXT NOT NULL,
	PRIMARY KEY (term, batch)
) STRICT, WITHOUT ROWID;
CREATE TRIGGER fact_update BEFORE UPDATE ON fact BEGIN
	SELECT RAISE(ABORT, 'a fact is never changed');
END;
CREATE TRIGGER fact_delete BEFORE DELETE ON fact BEGIN
	SELECT RAISE(ABORT, 'a fact is never deleted');
END;
-- REPLACE deletes without asking the trigger above; this one stops it too.
CREATE TRIGGER fact_insert BEFORE INSERT ON fact
WHEN NEW.seq <> 1 + (SELECT coalesce(max(seq), 0) FROM fact WHERE batch = NEW.batch)
  OR EXISTS (SELECT 1 FROM fact WHERE id = NEW.id)
BEGIN
	SELECT RAISE(ABORT, 'facts are only added, in order');
END;`

// knownVersion is the version this program writes, and the highest it reads.
func knownVersion() int { return len(upgrades()) }

// identify refuses a database that is not a store or is too new. It reads only.
// The pages are counted first: should another program create the store between
// the two questions, the answers still agree.
func (d *db) identify() error {
	pages, err := d.integer("PRAGMA page_count")
	if err != nil || pages == 0 {
		return err
	}
	id, err := d.integer("PRAGMA application_id")
	if err == nil && id != applicationID {
		return &ForeignError{Path: d.path, Why: "it is the database of another program"}
	}
	if err == nil {
		_, err = d.version()
	}
	return err
}

// version returns the version of the store, or a NewerError.
func (d *db) version() (int, error) {
	v, err := d.integer("PRAGMA user_version")
	if err == nil && int(v) > knownVersion() {
		return 0, &NewerError{Found: int(v), Known: knownVersion()}
	}
	return int(v), err
}

// upgrade brings the store to the known version. Two programs may both get here;
// the version is therefore read again inside each transaction.
func (d *db) upgrade() error {
	for {
		v, err := d.version()
		if err != nil || v == knownVersion() {
			return err
		}
		if err := d.tx(d.step); err != nil {
			return err
		}
	}
}

func (d *db) step() error {
	v, err := d.version()
	if err != nil || v == knownVersion() {
		return err
	}
	return d.conn.Exec(fmt.Sprintf("%s; PRAGMA application_id = %d; PRAGMA user_version = %d",
		upgrades()[v], applicationID, v+1))
}

// useWAL switches to the write-ahead log, which the file remembers, and makes
// each commit wait for the disk (the driver's default for a WAL is NORMAL). The
// last two matter on macOS only, where a plain fsync stops at the drive's cache.
func (d *db) useWAL() error {
	var mode string
	err := d.query("PRAGMA journal_mode = WAL", func(s *sqlite3.Stmt) error { mode = s.ColumnText(0); return nil })
	if err != nil {
		return err
	}
	if mode != "wal" {
		return fmt.Errorf("the file system has no room for a write-ahead log (journal mode stays %q)", mode)
	}
	return d.conn.Exec("PRAGMA synchronous = FULL; PRAGMA fullfsync = ON; PRAGMA checkpoint_fullfsync = ON")
}

package journal

import (
	"fmt"

	"github.com/ncruces/go-sqlite3"
)

// applicationID marks a database file as a store ("bnch" in ASCII); see
// https://sqlite.org/fileformat2.html, offset 68.
const applicationID = 0x626e6368

// schema is the steps that lead from version 0, an empty file, to the version
// that this program writes. A released step is never edited: add one.
type schema []string

func released() schema { return schema{schema1, schema2, schema3} }

// version is the one this program writes, and the highest it reads.
func (s schema) version() int { return len(s) }

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

// schema2 writes down where each batch ends, so that facts cut off there show,
// and which batches are under way, so that a start need not look at the others.
// The one kind that the store knows of is the one that ends a batch.
const schema2 = `CREATE TABLE batch (
	code  TEXT    NOT NULL PRIMARY KEY,
	first INTEGER NOT NULL,  -- id of its first fact
	last  INTEGER NOT NULL,  -- id of its last fact
	seq   INTEGER NOT NULL,  -- number of the last fact
	sum   TEXT    NOT NULL,  -- sum of the last fact
	ended INTEGER NOT NULL   -- 1 once it was closed
) STRICT, WITHOUT ROWID;
CREATE INDEX batch_under_way ON batch (first) WHERE ended = 0;
INSERT INTO batch (code, first, last, seq, sum, ended) SELECT batch, min(id), max(id), max(seq),
	(SELECT z.sum FROM fact z WHERE z.batch = a.batch ORDER BY z.seq DESC LIMIT 1), max(kind = 'closed')
FROM fact a GROUP BY batch;
CREATE TRIGGER fact_kept AFTER INSERT ON fact BEGIN
	INSERT INTO batch (code, first, last, seq, sum, ended)
	VALUES (NEW.batch, NEW.id, NEW.id, NEW.seq, NEW.sum, 0)
	ON CONFLICT (code) DO UPDATE SET last = excluded.last, seq = excluded.seq, sum = excluded.sum;
END;
-- Apart, so that the index is touched only then.
CREATE TRIGGER fact_ends AFTER INSERT ON fact WHEN NEW.kind = 'closed' BEGIN
	UPDATE batch SET ended = 1 WHERE code = NEW.batch;
END;`

// schema3 writes down what a list of batches says of each, which would otherwise
// be two facts to look up a batch, anywhere in the file; and finds the batches
// that were closed last without looking at the others.
const schema3 = `ALTER TABLE batch ADD COLUMN begun TEXT NOT NULL DEFAULT '';   -- wall time of its first fact
ALTER TABLE batch ADD COLUMN touched TEXT NOT NULL DEFAULT ''; -- wall time of its last fact
UPDATE batch SET begun = (SELECT wall FROM fact WHERE id = first), touched = (SELECT wall FROM fact WHERE id = last);
CREATE INDEX batch_over ON batch (first) WHERE ended = 1;
DROP TRIGGER fact_kept;
CREATE TRIGGER fact_kept AFTER INSERT ON fact BEGIN
	INSERT INTO batch (code, first, last, seq, sum, ended, begun, touched)
	VALUES (NEW.batch, NEW.id, NEW.id, NEW.seq, NEW.sum, 0, NEW.wall, NEW.wall)
	ON CONFLICT (code) DO UPDATE SET last = excluded.last, seq = excluded.seq, sum = excluded.sum, touched = excluded.touched;
END;`

// older has, for each version before this one, what lets a reader, which may not
// upgrade, put the questions of this version to it.
func older() map[int]string {
	return map[int]string{1: schema1Seen, 2: schema2Seen}
}

const schema1Seen = `CREATE TEMP VIEW batch AS
SELECT batch AS code, min(id) AS first, max(id) AS last, max(seq) AS seq,
	(SELECT z.sum FROM main.fact z WHERE z.batch = a.batch ORDER BY z.seq DESC LIMIT 1) AS sum,
	max(kind = 'closed') AS ended,
	(SELECT f.wall FROM main.fact f WHERE f.batch = a.batch ORDER BY f.seq LIMIT 1) AS begun,
	(SELECT z.wall FROM main.fact z WHERE z.batch = a.batch ORDER BY z.seq DESC LIMIT 1) AS touched
FROM main.fact a GROUP BY batch;`

const schema2Seen = `CREATE TEMP VIEW batch AS
SELECT code, first, last, seq, sum, ended,
	(SELECT wall FROM main.fact WHERE id = b.first) AS begun, (SELECT wall FROM main.fact WHERE id = b.last) AS touched
FROM main.batch b;`

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
	if err == nil && int(v) > d.schema.version() {
		return 0, &NewerError{Found: int(v), Known: d.schema.version()}
	}
	return int(v), err
}

// upgrade brings the store to the known version in one transaction, and keeps a
// copy of the older one. Two programs may both get here; the version is
// therefore read again inside the transaction.
func (d *db) upgrade() error {
	v, err := d.version()
	if err != nil || v == d.schema.version() {
		return err
	}
	if v > 0 {
		if err := d.keepCopy(fmt.Sprintf("version-%d", v)); err != nil {
			return fmt.Errorf("before the upgrade from version %d a copy could not be kept: %w", v, err)
		}
	}
	return d.tx(d.steps)
}

func (d *db) steps() error {
	v, err := d.version()
	for ; err == nil && v < d.schema.version(); v++ {
		err = d.conn.Exec(d.schema[v])
	}
	if err != nil {
		return err
	}
	return d.conn.Exec(fmt.Sprintf("PRAGMA application_id = %d; PRAGMA user_version = %d", applicationID, v))
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

package journal

import (
	"encoding/json"
	"errors"
	"fmt"
	"time"

	"github.com/ncruces/go-sqlite3"
)

// Head is a batch at a glance. It is not verified; Records is.
type Head struct {
	Batch       string
	First, Last Stamp
	Seq         int // of the last fact
	LastKind    string
}

// The batches are found by hopping through the index from one code to the next,
// so that the time depends on their number and not on the number of facts.
const batchesSQL = `
WITH RECURSIVE code(batch) AS (
	SELECT min(batch) FROM fact
	UNION ALL
	SELECT (SELECT min(batch) FROM fact WHERE batch > code.batch) FROM code WHERE code.batch IS NOT NULL
)
SELECT a.batch, a.wall, a.boot, a.since_boot, z.wall, z.boot, z.since_boot, z.seq, z.kind
FROM code
JOIN fact a ON a.batch = code.batch AND a.seq = (SELECT min(seq) FROM fact WHERE batch = code.batch)
JOIN fact z ON z.batch = code.batch AND z.seq = (SELECT max(seq) FROM fact WHERE batch = code.batch)
ORDER BY a.id DESC`

// Batches lists all batches, the one begun last first.
func (s *Store) Batches() ([]Head, error) {
	var heads []Head
	err := s.do(func(d *db) error {
		return d.query(batchesSQL, func(row *sqlite3.Stmt) error {
			h := Head{Batch: row.ColumnText(0), Seq: row.ColumnInt(7), LastKind: row.ColumnText(8)}
			// A stamp that cannot be read stays zero here; Records reports it.
			h.First, _ = columnStamp(row, 1)
			h.Last, _ = columnStamp(row, 4)
			heads = append(heads, h)
			return nil
		})
	})
	if err != nil {
		return nil, explain("the list of batches could not be read", err)
	}
	return heads, nil
}

const searchSQL = `
SELECT batch FROM term WHERE term = ?1
ORDER BY (SELECT id FROM fact WHERE fact.batch = term.batch ORDER BY seq LIMIT 1) DESC`

// Search returns the codes of the batches with a fact that carries exactly this
// term, the one begun last first.
func (s *Store) Search(term string) ([]string, error) {
	var codes []string
	err := s.do(func(d *db) error {
		return d.query(searchSQL, func(row *sqlite3.Stmt) error {
			codes = append(codes, row.ColumnText(0))
			return nil
		}, term)
	})
	if err != nil {
		return nil, explain(fmt.Sprintf("the search for %q failed", term), err)
	}
	return codes, nil
}

// Records returns the facts of a batch in order, none if the store does not know
// it. It verifies that the numbers are contiguous and that every sum fits; if
// not, it returns a *DamageError with the facts before the damage.
func (s *Store) Records(batch string) ([]Record, error) {
	var records []Record
	err := s.do(func(d *db) (err error) {
		records, err = d.records(batch)
		return err
	})
	var damage *DamageError
	switch {
	case err == nil:
		return records, nil
	case errors.As(err, &damage):
		return records, damage
	}
	return records, explain(fmt.Sprintf("batch %s could not be read", batch), err)
}

const recordsSQL = `
SELECT seq, wall, boot, since_boot, kind, body, terms, sum FROM fact WHERE batch = ?1 ORDER BY seq`

func (d *db) records(batch string) ([]Record, error) {
	var records []Record
	prev := ""
	err := d.query(recordsSQL, func(row *sqlite3.Stmt) error {
		r, what := columnRecord(row, batch, len(records)+1, prev)
		if what != "" {
			return &DamageError{Batch: batch, Seq: len(records) + 1, What: what}
		}
		records, prev = append(records, r), r.Sum
		return nil
	}, batch)
	if isAny(err, sqlite3.CORRUPT) {
		err = &DamageError{Batch: batch, Seq: len(records) + 1, What: "the database file itself is damaged", Err: err}
	}
	return records, err
}

// columnRecord reads one row and says in words what is wrong with it, if anything.
func columnRecord(row *sqlite3.Stmt, batch string, seq int, prev string) (r Record, wrong string) {
	if found := row.ColumnInt(0); found != seq {
		return r, fmt.Sprintf("the fact is missing, the next one is number %d", found)
	}
	at, err := columnStamp(row, 1)
	if err != nil {
		return r, "its time cannot be read: " + err.Error()
	}
	r = Record{
		Batch: batch, Seq: seq, Stamp: at, Kind: row.ColumnText(4),
		Body: append([]byte{}, row.ColumnRawText(5)...), Sum: row.ColumnText(7),
	}
	if err := json.Unmarshal(row.ColumnRawText(6), &r.Terms); err != nil {
		return r, "its search terms cannot be read: " + err.Error()
	}
	if len(r.Terms) == 0 {
		r.Terms = nil
	}
	// Two texts can mean one time or one list; only the one we write is right.
	same := at.wallText() == row.ColumnText(1) && r.termsText() == row.ColumnText(6)
	if r.sum(prev) != r.Sum || !same {
		return r, "its checksum does not fit what it says or the fact before it"
	}
	return r, ""
}

func columnStamp(row *sqlite3.Stmt, col int) (Stamp, error) {
	wall, err := parseWall(row.ColumnText(col))
	return Stamp{Wall: wall, BootID: row.ColumnText(col + 1), SinceBoot: time.Duration(row.ColumnInt64(col + 2))}, err
}

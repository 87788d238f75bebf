package journal

import (
	"encoding/json"
	"errors"
	"fmt"
	"time"

	"github.com/ncruces/go-sqlite3"
)

// Head is a batch at a glance. It is not verified; Records is, and Verify both.
type Head struct {
	Batch       string
	First, Last time.Time // when its first and last fact came, by the wall clock
	Seq         int       // of the last fact
	Ended       bool      // Ended says that a fact of the kind "closed" is among them.
}

const headsSQL = `SELECT code, begun, touched, seq, ended FROM batch`

// Batches lists all batches, the one begun last first. It takes longer with
// every batch there is.
func (s *Store) Batches() ([]Head, error) { return s.heads(headsSQL + ` ORDER BY first DESC`) }

// UnderWay lists the batches that have not ended, the one begun last first. How
// many others there are does not matter.
func (s *Store) UnderWay() ([]Head, error) {
	return s.heads(headsSQL + ` WHERE ended = 0 ORDER BY first DESC`)
}

// Ended lists so many of the batches that have ended, the one begun last first.
// How many others there are does not matter.
func (s *Store) Ended(most int) ([]Head, error) {
	return s.heads(headsSQL+` WHERE ended = 1 ORDER BY first DESC LIMIT ?1`, most)
}

// newestSQL goes backwards through the facts as far as the beginning of a batch.
const newestSQL = `SELECT batch FROM fact NOT INDEXED WHERE seq = 1 ORDER BY id DESC LIMIT 1`

// Newest gives the batch that was begun last, or "".
func (s *Store) Newest() (code string, err error) {
	err = s.do(func(d *db) error {
		return d.query(newestSQL, func(row *sqlite3.Stmt) error { code = row.ColumnText(0); return nil })
	})
	if err != nil {
		return "", explain("the newest batch could not be found", err)
	}
	return code, nil
}

func (s *Store) heads(sql string, args ...any) ([]Head, error) {
	var heads []Head
	err := s.do(func(d *db) (err error) {
		heads, err = d.heads(sql, args...)
		return err
	})
	if err != nil {
		return nil, explain("the list of batches could not be read", err)
	}
	return heads, nil
}

func (d *db) heads(sql string, args ...any) ([]Head, error) {
	var heads []Head
	err := d.query(sql, func(row *sqlite3.Stmt) error {
		h := Head{Batch: row.ColumnText(0), Seq: row.ColumnInt(3), Ended: row.ColumnBool(4)}
		// A time that cannot be read stays zero here; Verify reports it.
		h.First, _ = parseWall(row.ColumnText(1))
		h.Last, _ = parseWall(row.ColumnText(2))
		heads = append(heads, h)
		return nil
	}, args...)
	return heads, err
}

// Search returns the codes of the batches with a fact that carries exactly this
// term, in the order of the codes.
func (s *Store) Search(term string) ([]string, error) {
	codes, err := s.texts(`SELECT batch FROM term WHERE term = ?1 ORDER BY batch`, term)
	if err != nil {
		return nil, explain(fmt.Sprintf("the search for %q failed", term), err)
	}
	return codes, nil
}

// texts gives the first column of what a query finds.
func (s *Store) texts(sql string, args ...any) (list []string, err error) {
	err = s.do(func(d *db) error {
		return d.query(sql, func(row *sqlite3.Stmt) error {
			list = append(list, row.ColumnText(0))
			return nil
		}, args...)
	})
	return list, err
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

// records reads a batch, and holds it against what the store wrote down of its end.
func (d *db) records(batch string) (records []Record, err error) {
	err = d.reading(func() error {
		if records, err = d.chain(batch); err != nil {
			return err
		}
		return d.checkEnd(batch, records)
	})
	if isAny(err, sqlite3.CORRUPT) {
		err = &DamageError{Batch: batch, Seq: len(records) + 1, What: "the database file itself is damaged", Err: err}
	}
	return records, err
}

func (d *db) chain(batch string) ([]Record, error) {
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
	return records, err
}

const endSQL = `SELECT seq, sum FROM batch WHERE code = ?1`

// checkEnd finds facts that were cut off, which leave an unbroken chain behind.
func (d *db) checkEnd(batch string, records []Record) error {
	seq, sum := 0, ""
	err := d.query(endSQL, func(row *sqlite3.Stmt) error {
		seq, sum = row.ColumnInt(0), row.ColumnText(1)
		return nil
	}, batch)
	n := len(records)
	switch {
	case err != nil:
		return err
	case n < seq:
		return &DamageError{Batch: batch, Seq: n + 1, What: fmt.Sprintf("the fact is missing, the last of %d that were saved is gone", seq)}
	case n > seq || n > 0 && records[n-1].Sum != sum:
		return &DamageError{Batch: batch, Seq: max(1, n), What: fmt.Sprintf("the store has written down an end at fact %d", seq)}
	}
	return nil
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

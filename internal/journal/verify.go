package journal

import (
	"errors"
	"fmt"
	"maps"
	"os"
	"slices"

	"github.com/ncruces/go-sqlite3"
)

// Check is what a verification found.
type Check struct {
	Batches []Finding
	Facts   int      // all that were read and are whole
	Bytes   int64    // the size of the database file
	File    []string // what SQLite says against the file, and what contradicts itself in it
}

// Finding says how one batch stands.
type Finding struct {
	Batch string
	Facts int          // how many are whole, from the first
	Bad   *DamageError // nil when the batch is whole
}

// Err gives the first thing that is wrong, or nil when everything is whole.
func (c Check) Err() error {
	for _, f := range c.Batches {
		if f.Bad != nil {
			return f.Bad
		}
	}
	if len(c.File) > 0 {
		return fmt.Errorf("%w: %s", ErrCorrupt, c.File[0])
	}
	return nil
}

// Verify reads every fact of every batch, and has SQLite check the file. It
// changes nothing. An error says that it could not be done; what is wrong with
// the store is in the Check. After each batch progress is told how many of how
// many are done.
func (s *Store) Verify(progress func(done, total int)) (Check, error) {
	var check Check
	err := s.do(func(d *db) (err error) {
		check, err = d.verify(progress)
		return err
	})
	if err != nil {
		return check, explain("the store could not be verified", err)
	}
	return check, nil
}

func (d *db) verify(progress func(done, total int)) (check Check, err error) {
	codes, err := d.codes()
	if err != nil {
		return check, err
	}
	for i, code := range codes {
		records, err := d.records(code)
		f := Finding{Batch: code, Facts: len(records)}
		if err != nil && !errors.As(err, &f.Bad) {
			return check, err
		}
		if f.Bad == nil {
			missing, err := d.missingTerms(records)
			listed, e := d.misListed(code, records)
			if err := errors.Join(err, e); err != nil && !isAny(err, sqlite3.CORRUPT) {
				return check, err
			}
			check.File = append(check.File, slices.Concat(missing, listed)...)
		}
		check.Batches, check.Facts = append(check.Batches, f), check.Facts+f.Facts
		if progress != nil {
			progress(i+1, len(codes))
		}
	}
	said, err := d.fileCheck()
	check.File = append(check.File, said...)
	return check, errors.Join(err, d.size(&check))
}

// codes gives all batches that there is any sign of, in order: a damaged file
// may have lost some from one table and not from another.
func (d *db) codes() ([]string, error) {
	all := map[string]int{}
	for _, sql := range []string{
		`SELECT code FROM batch`, `SELECT DISTINCT batch FROM fact NOT INDEXED`,
	} {
		err := d.query(sql, func(row *sqlite3.Stmt) error { all[row.ColumnText(0)]++; return nil })
		if err != nil && !isAny(err, sqlite3.CORRUPT) {
			return nil, err
		}
	}
	return sortedKeys(all), nil
}

func sortedKeys(m map[string]int) []string { return slices.Sorted(maps.Keys(m)) }

const termSQL = `SELECT 1 FROM term WHERE term = ?1 AND batch = ?2`

// missingTerms says which facts a search would not find.
func (d *db) missingTerms(records []Record) (missing []string, err error) {
	known := map[string]bool{}
	for _, r := range records {
		for _, t := range r.Terms {
			if known[t] {
				continue
			}
			known[t] = true
			found := false
			if err := d.query(termSQL, func(*sqlite3.Stmt) error { found = true; return nil }, t, r.Batch); err != nil {
				return missing, err
			}
			if !found {
				missing = append(missing, fmt.Sprintf("a search for %q does not find batch %s", t, r.Batch))
			}
		}
	}
	return missing, nil
}

// misListed says where the list of batches differs from the facts.
func (d *db) misListed(code string, records []Record) (wrong []string, err error) {
	if len(records) == 0 {
		return nil, nil
	}
	ended := slices.ContainsFunc(records, func(r Record) bool { return r.Kind == "closed" })
	first, last := records[0].Stamp.wallText(), records[len(records)-1].Stamp.wallText()
	err = d.query(headsSQL+` WHERE code = ?1`, func(row *sqlite3.Stmt) error {
		if row.ColumnText(1) != first || row.ColumnText(2) != last || row.ColumnBool(4) != ended {
			wrong = []string{fmt.Sprintf("the list of batches is wrong on when batch %s began or ended", code)}
		}
		return nil
	}, code)
	return wrong, err
}

// fileCheck has SQLite look at every page, and at both ways to the facts.
func (d *db) fileCheck() (said []string, err error) {
	err = d.query("PRAGMA integrity_check(20)", func(row *sqlite3.Stmt) error {
		if text := row.ColumnText(0); text != "ok" {
			said = append(said, text)
		}
		return nil
	})
	if isAny(err, sqlite3.CORRUPT) {
		said, err = append(said, err.Error()), nil
	}
	return said, err
}

// size counts the bytes. SQLite takes what is missing of the last page for zeros;
// it is missing rightly while the log has that page.
func (d *db) size(check *Check) error {
	pages, err := d.integer("PRAGMA page_count")
	if err != nil {
		return err
	}
	page, err := d.integer("PRAGMA page_size")
	if err != nil {
		return err
	}
	check.Bytes = pages * page
	info, err := os.Stat(d.path)
	if err == nil && info.Size()%page != 0 && walSize(d.path) <= 0 {
		check.File = append(check.File, "the file ends in the middle of a page")
	}
	return err
}

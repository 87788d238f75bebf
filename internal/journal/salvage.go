package journal

import (
	"errors"

	"github.com/ncruces/go-sqlite3"
)

// Salvaged is what could be read of one batch.
type Salvaged struct {
	Batch string
	Sound []Record     // from the first on, each verified
	Loose []Record     // after the damage, as found: nobody can say that they are right
	Bad   *DamageError // nil when the batch is whole
}

// Salvage hands over every batch, whole or not, with all that can be read of it. The store
// can be asked meanwhile.
func (s *Store) Salvage(each func(Salvaged) error) error {
	var codes []string
	var loose map[string][]Record // read when the first batch is not whole
	err := s.do(func(d *db) (err error) {
		codes, err = d.codes()
		return err
	})
	for i := 0; i < len(codes) && err == nil; i++ {
		b := Salvaged{Batch: codes[i]}
		err = s.do(func(d *db) (err error) {
			b.Sound, err = d.records(b.Batch)
			if err != nil && !errors.As(err, &b.Bad) {
				return err
			}
			if b.Bad != nil {
				if loose == nil {
					loose = d.scan()
				}
				b.take(loose[b.Batch])
			}
			return nil
		})
		if err == nil {
			err = each(b)
		}
	}
	if err != nil {
		return explain("not everything could be read", err)
	}
	return nil
}

// take adds what was found of the batch elsewhere in the file: it lengthens the
// chain as far as it fits, and the rest stays loose.
func (b *Salvaged) take(found []Record) {
	prev := ""
	if n := len(b.Sound); n > 0 {
		prev = b.Sound[n-1].Sum
	}
	for _, r := range found {
		switch n := len(b.Sound); {
		case r.Seq <= n:
		case r.Seq == n+1 && r.sum(prev) == r.Sum && len(b.Loose) == 0:
			b.Sound, prev = append(b.Sound, r), r.Sum
		default:
			b.Loose = append(b.Loose, r)
		}
	}
}

const (
	scanSQL = `SELECT seq, wall, boot, since_boot, kind, body, terms, sum, batch, id FROM fact NOT INDEXED WHERE id >= ?1 ORDER BY id`
	// strides bounds the search for the next row that can be read. A page has
	// fewer rows than it has bytes; a damaged page of the tree hides some hundred.
	strides = 1 << 17
)

// scan reads the table of facts past whatever is damaged in it: where a row
// cannot be read, the next number is tried.
func (d *db) scan() map[string][]Record {
	all := map[string][]Record{}
	next, failed := int64(1), 0
	for failed < strides {
		err := d.query(scanSQL, func(row *sqlite3.Stmt) error {
			r, _ := columnRecord(row, row.ColumnText(8), row.ColumnInt(0), "") // What is wrong with it is known.
			if r.Kind != "" {
				all[r.Batch] = append(all[r.Batch], r)
			}
			next, failed = row.ColumnInt64(9)+1, 0
			return nil
		}, next)
		if err == nil {
			break
		}
		next, failed = next+1, failed+1
	}
	return all
}

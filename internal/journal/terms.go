package journal

import (
	"fmt"

	"github.com/ncruces/go-sqlite3"
)

// The distinct terms are found by hopping through the index from one to the
// next, so that the time depends on their number and not on that of the batches.
const termsSQL = `
WITH RECURSIVE t(term) AS (
	SELECT min(term) FROM term WHERE term >= ?1
	UNION ALL
	SELECT (SELECT min(term) FROM term WHERE term > t.term) FROM t WHERE t.term IS NOT NULL AND substr(t.term, 1, length(?1)) = ?1
)
SELECT term FROM t WHERE term IS NOT NULL AND substr(term, 1, length(?1)) = ?1`

// Terms gives the different terms that begin with the prefix, in order.
func (s *Store) Terms(prefix string) ([]string, error) {
	terms, err := s.texts(termsSQL, prefix)
	if err != nil {
		return nil, explain(fmt.Sprintf("the terms under %q could not be read", prefix), err)
	}
	return terms, nil
}

// Tagged calls with every term that begins with the prefix and each batch that
// carries it, in the order of the terms.
func (s *Store) Tagged(prefix string, with func(term, batch string)) error {
	err := s.do(func(d *db) error {
		return d.query(`SELECT term, batch FROM term WHERE term >= ?1 AND term < ?1 || char(1114111)`, func(row *sqlite3.Stmt) error {
			with(row.ColumnText(0), row.ColumnText(1))
			return nil
		}, prefix)
	})
	if err != nil {
		return explain(fmt.Sprintf("the terms under %q could not be read", prefix), err)
	}
	return nil
}

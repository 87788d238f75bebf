package journal

import (
	"errors"
	"fmt"

	"github.com/ncruces/go-sqlite3"
)

// db is one connection with its statements, prepared when first used. It is not
// safe for concurrent use; Store holds its mutex around every call.
type db struct {
	conn   *sqlite3.Conn
	path   string
	disk   *disk
	schema schema
	stmts  map[string]*sqlite3.Stmt
}

func (d *db) stmt(sql string) (*sqlite3.Stmt, error) {
	if s, ok := d.stmts[sql]; ok {
		return s, nil
	}
	s, _, err := d.conn.PrepareFlags(sql, sqlite3.PREPARE_PERSISTENT)
	if err != nil {
		return nil, err
	}
	d.stmts[sql] = s
	return s, nil
}

// query runs one statement and calls row for each row of its result.
func (d *db) query(sql string, row func(*sqlite3.Stmt) error, args ...any) (err error) {
	s, err := d.stmt(sql)
	if err != nil {
		return err
	}
	// Reset repeats the error of a failed Step and ends the read transaction.
	defer func() {
		if e := s.Reset(); err == nil {
			err = e
		}
	}()
	for i, a := range args {
		if err := bind(s, i+1, a); err != nil {
			return err
		}
	}
	for s.Step() {
		if row == nil {
			continue
		}
		if err := row(s); err != nil {
			return err
		}
	}
	return s.Err()
}

func (d *db) exec(sql string, args ...any) error { return d.query(sql, nil, args...) }

func (d *db) integer(sql string) (n int64, err error) {
	err = d.query(sql, func(s *sqlite3.Stmt) error { n = s.ColumnInt64(0); return nil })
	return n, err
}

func bind(s *sqlite3.Stmt, i int, arg any) error {
	switch a := arg.(type) {
	case string:
		return s.BindText(i, a)
	case []byte:
		return s.BindRawText(i, a)
	case int:
		return s.BindInt(i, a)
	case int64:
		return s.BindInt64(i, a)
	}
	return fmt.Errorf("cannot bind a %T", arg)
}

// tx runs do in one write transaction. On any error nothing of it stays, and
// the connection is fit for the next one.
func (d *db) tx(do func() error) (err error) {
	// A rollback that the disk refused last time is made up for first.
	if err := d.rollback(); err != nil {
		return err
	}
	if err := d.exec("BEGIN IMMEDIATE"); err != nil {
		return err
	}
	defer func() {
		if err != nil {
			err = because(err, d.rollback())
		}
	}()
	if err := do(); err != nil {
		return err
	}
	return d.exec("COMMIT")
}

// reading runs do on one state of the store, whatever others write meanwhile.
func (d *db) reading(do func() error) error {
	if err := d.rollback(); err != nil {
		return err
	}
	if err := d.exec("BEGIN"); err != nil {
		return err
	}
	err := do()
	return errors.Join(err, d.rollback())
}

// rollback ends a transaction that SQLite has not ended by itself.
func (d *db) rollback() error {
	if d.conn.GetAutocommit() {
		return nil
	}
	return d.conn.Exec("ROLLBACK")
}

func (d *db) close() error {
	var errs []error
	for _, s := range d.stmts {
		errs = append(errs, s.Close())
	}
	d.stmts = nil
	errs = append(errs, d.conn.Close())
	d.disk.close()
	return errors.Join(errs...)
}

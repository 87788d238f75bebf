package journal

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"unicode/utf8"

	"github.com/ncruces/go-sqlite3"
)

// maxBody bounds a fact, since the driver's memory is bounded (bytes).
const maxBody = 16 << 20

// Writer is the one writer of a batch. Its methods may be called from several
// goroutines.
type Writer struct {
	store *Store
	batch string
	hold  *hold // nil once released

	// Where the batch ends, as far as this writer knows.
	seq int
	sum string
}

// Hold makes the caller the one writer of a batch, across programs, until
// Release, Close or the end of the process, however it ends. While another
// holds the batch it returns a *HeldError at once; if the batch is damaged, a
// *DamageError, since a fact after the damage could not be read back.
func (s *Store) Hold(batch string, now Stamp) (*Writer, error) { return s.hold(batch, now, false) }

// TakeOver is Hold for a batch that was left open on another machine, once it is
// sure that nothing runs there.
func (s *Store) TakeOver(batch string, now Stamp) (*Writer, error) { return s.hold(batch, now, true) }

func (s *Store) hold(batch string, now Stamp, over bool) (*Writer, error) {
	what := fmt.Sprintf("batch %s cannot be opened for writing", batch)
	if s.readOnly {
		return nil, explain(what, fmt.Errorf("the store was opened for reading only: %w", ErrReadOnly))
	}
	h, err := takeHold(s.dir, batch, now, over)
	var held *HeldError
	switch {
	case errors.As(err, &held):
		return nil, held
	case err != nil:
		return nil, explain(what, err)
	}
	w := &Writer{store: s, batch: batch, hold: h}
	err = s.do(w.start)
	if err == nil {
		return w, nil
	}
	var damage *DamageError
	if errors.As(err, &damage) {
		_ = h.release() // frees itself at the latest with the process
		return nil, damage
	}
	return nil, explain(what, because(err, h.release()))
}

func (w *Writer) start(d *db) error {
	records, err := d.records(w.batch)
	if err != nil {
		return err
	}
	if n := len(records); n > 0 {
		w.seq, w.sum = n, records[n-1].Sum
	}
	w.store.writers[w] = struct{}{}
	return nil
}

// Append adds a fact to the batch and returns it as kept. It is durable when
// Append returns. On an error nothing of it is kept, and Append may be called
// again once the cause has gone; errors.Is finds ErrFull, ErrReadOnly, ErrBusy,
// ErrChanged or ErrClosed where one of them is the cause.
func (w *Writer) Append(kind string, body []byte, terms []string, at Stamp) (Record, error) {
	var r Record
	what := fmt.Sprintf("a fact of batch %s was not saved", w.batch)
	err := w.store.do(func(d *db) (err error) {
		what = fmt.Sprintf("fact %d of batch %s was not saved", w.seq+1, w.batch)
		if w.hold == nil {
			return ErrClosed
		}
		if r, err = w.next(kind, body, terms, at); err != nil {
			return err
		}
		if err := d.tx(func() error { return w.insert(d, r) }); err != nil {
			return err
		}
		w.seq, w.sum = r.Seq, r.Sum
		return nil
	})
	if err != nil {
		return Record{}, explain(what, err)
	}
	return r, nil
}

// next builds the record to come, or says what is wrong with it.
func (w *Writer) next(kind string, body []byte, terms []string, at Stamp) (Record, error) {
	at, err := at.normal()
	switch {
	case err != nil:
		return Record{}, err
	case kind == "":
		return Record{}, errors.New("it has no kind")
	case len(body) > maxBody:
		return Record{}, fmt.Errorf("its body has %d bytes; at most %d are kept", len(body), maxBody)
	case !json.Valid(body):
		return Record{}, errors.New("its body is not JSON")
	}
	// encoding/json would replace such bytes in the terms without a word.
	for _, text := range append([]string{kind, at.BootID, string(body)}, terms...) {
		if !utf8.ValidString(text) {
			return Record{}, fmt.Errorf("%.40q is not valid UTF-8", text)
		}
	}
	r := Record{
		Batch: w.batch, Seq: w.seq + 1, Stamp: at, Kind: kind,
		Body: bytes.Clone(body), Terms: append([]string(nil), terms...),
	}
	r.Sum = r.sum(w.sum)
	return r, nil
}

const (
	insertSQL     = `INSERT INTO fact (batch, seq, wall, boot, since_boot, kind, body, terms, sum) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9)`
	insertTermSQL = `INSERT OR IGNORE INTO term (term, batch) VALUES (?1, ?2)`
	tailSQL       = `SELECT seq, sum FROM fact WHERE batch = ?1 ORDER BY seq DESC LIMIT 1`
)

// insert runs inside the transaction.
func (w *Writer) insert(d *db, r Record) error {
	// A newer program may have upgraded the store since this one opened it.
	if _, err := d.version(); err != nil {
		return err
	}
	if err := w.checkTail(d); err != nil {
		return err
	}
	err := d.exec(insertSQL, r.Batch, r.Seq, r.Stamp.wallText(), r.Stamp.BootID, int64(r.Stamp.SinceBoot),
		r.Kind, r.Body, r.termsText(), r.Sum)
	for _, t := range r.Terms {
		if err == nil {
			err = d.exec(insertTermSQL, t, r.Batch)
		}
	}
	return err
}

// checkTail makes sure that the batch ends where this writer left it.
func (w *Writer) checkTail(d *db) error {
	seq, sum := 0, ""
	err := d.query(tailSQL, func(row *sqlite3.Stmt) error {
		seq, sum = row.ColumnInt(0), row.ColumnText(1)
		return nil
	}, w.batch)
	if err == nil && (seq != w.seq || sum != w.sum) {
		err = fmt.Errorf("it ends with fact %d, not %d, or that one differs: %w", seq, w.seq, ErrChanged)
	}
	return err
}

// Release lets others write the batch. A second Release does nothing.
func (w *Writer) Release() error {
	w.store.mu.Lock()
	defer w.store.mu.Unlock()
	if err := w.release(); err != nil {
		return explain(fmt.Sprintf("batch %s was not released", w.batch), err)
	}
	return nil
}

// release needs the mutex of the store.
func (w *Writer) release() error {
	if w.hold == nil {
		return nil
	}
	err := w.hold.release()
	w.hold = nil
	delete(w.store.writers, w)
	return err
}

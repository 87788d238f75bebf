package ledger

import (
	"errors"
	"fmt"
	"io"
	"time"

	"bench/internal/journal"
	"bench/internal/recipe"
)

// Export writes everything that can be read: the record of each batch as far as it
// is sound, and what lies after a damage as it was found. What is not whole is
// named at its place, and again in the error.
func Export(w io.Writer, s *journal.Store) error {
	var bad []error
	err := s.Salvage(func(b journal.Salvaged) error {
		bad = append(bad, exportBatch(w, s, b)...)
		return nil
	})
	return errors.Join(errors.Join(bad...), err)
}

// exportBatch prints one batch, and gives what is wrong with it.
func exportBatch(w io.Writer, s *journal.Store, b journal.Salvaged) (wrong []error) {
	state, err := understood(b.Sound)
	if err != nil {
		wrong = append(wrong, fmt.Errorf("batch %s: %w", b.Batch, err))
	}
	if state.Begun() {
		record, err := recordOf(s, b.Batch, state)
		if err != nil {
			wrong = append(wrong, fmt.Errorf("batch %s: %w", b.Batch, err))
		}
		_, _ = fmt.Fprint(w, record.Text())
	} else {
		_, _ = fmt.Fprintf(w, "Batch %s\n", recipe.Clean(b.Batch))
	}
	asFound(w, "bench does not understand these; they are whole:", b.Sound[len(state.Entries):])
	if b.Bad != nil {
		wrong = append(wrong, b.Bad)
		_, _ = fmt.Fprintf(w, "\nNOT WHOLE from fact %d on: %s\n", b.Bad.Seq, recipe.Clean(b.Bad.What))
		asFound(w, "after the damage, as found; nobody can say that it is right:", b.Loose)
	}
	_, _ = fmt.Fprintln(w)
	return wrong
}

func asFound(w io.Writer, words string, records []journal.Record) {
	if len(records) == 0 {
		return
	}
	_, _ = fmt.Fprintf(w, "\n%s\n", words)
	for _, r := range records {
		_, _ = fmt.Fprintf(w, "%4d  %s  %s %s\n", r.Seq,
			r.Stamp.Wall.In(time.Local).Format("2006-01-02 15:04:05"), recipe.Clean(r.Kind), recipe.Clean(string(r.Body)))
	}
}

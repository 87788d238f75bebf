// Command decade makes a store as large as ten years leave it, to try things on:
//
//	go run ./internal/decade -from STORE -to DIR
//
// It takes the first batch of the store in the folder STORE, and writes it again
// and again under the codes of ten years of days. The rule: it works through the
// same door as bench, one append a fact, on a disk that does not wait.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"time"

	"bench/internal/brittle"
	"bench/internal/journal"
)

func main() {
	from := flag.String("from", "", "folder of a store with a whole batch")
	to := flag.String("to", "", "folder for the new store")
	batches := flag.Int("batches", 5000, "how many batches")
	open := flag.Int("open", 3, "how many of them, the last, are still under way")
	flag.Parse()
	if err := run(os.Stdout, *from, *to, *batches, *open); err != nil {
		_, _ = fmt.Fprintln(os.Stderr, "decade:", err)
		os.Exit(1)
	}
}

func run(out io.Writer, from, to string, batches, open int) error {
	if from == "" || to == "" {
		return errors.New("-from and -to name two folders")
	}
	pattern, err := first(from)
	if err != nil {
		return err
	}
	disk, done := brittle.New("decade")
	defer done()
	disk.Hurry()
	store, err := journal.Open(to, journal.Options{VFS: "decade"})
	if err != nil {
		return err
	}
	began, facts := time.Now(), 0
	for n := range batches {
		if err := again(store, pattern, n, batches, n < batches-open); err != nil {
			return errors.Join(err, store.Close())
		}
		facts += len(pattern)
		if n%500 == 499 {
			_, _ = fmt.Fprintf(out, "%d batches, %d facts, %.0f s\n", n+1, facts, time.Since(began).Seconds())
		}
	}
	return store.Close()
}

// first reads the batch that began first; it must be whole.
func first(dir string) ([]journal.Record, error) {
	store, err := journal.Open(dir, journal.Options{}) // It may have to be upgraded.
	if err != nil {
		return nil, err
	}
	heads, err := store.Batches()
	if err == nil && len(heads) == 0 {
		err = errors.New("there is no batch to take")
	}
	var records []journal.Record
	if err == nil {
		records, err = store.Records(heads[len(heads)-1].Batch)
	}
	return records, errors.Join(err, store.Close())
}

// again writes the batch once more, so many of its kind before the day it has
// in the pattern, and leaves its end out unless it is closed.
func again(store *journal.Store, pattern []journal.Record, n, of int, closed bool) error {
	const perDay = 2
	days := (n - of + 1) / perDay
	shift := time.Duration(days) * 24 * time.Hour
	at := pattern[0].Stamp.Wall.Add(shift)
	code := at.Format("060102") + string(rune('A'+n%perDay))
	w, err := store.Hold(code, pattern[0].Stamp)
	if err != nil {
		return err
	}
	for _, r := range pattern {
		if r.Kind == "closed" && !closed {
			break
		}
		r.Stamp.Wall = r.Stamp.Wall.Add(shift)
		if _, err := w.Append(r.Kind, r.Body, r.Terms, r.Stamp); err != nil {
			return errors.Join(err, w.Release())
		}
	}
	return w.Release()
}

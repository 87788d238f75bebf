package ledger

import (
	"os"
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/journal"
	"bench/internal/sample"
	"bench/internal/timer"
)

// TestCopyIsFresh holds the record in plain text to a correction at once, and to
// everything else when a batch is let go.
func TestCopyIsFresh(t *testing.T) {
	home := t.TempDir()
	store, err := journal.Open(t.TempDir(), journal.Options{})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = store.Close() })
	l, now := Of(store, home), timer.Moment{Wall: time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC)}
	code, _, err := l.Start(sample.Control(t, "lighthouse-at-dusk.yaml", 3), now)
	if err != nil {
		t.Fatal(err)
	}
	says := func(text string) bool {
		l.open[code].copy.Wait()
		record, _ := os.ReadFile(copyPath(home, code))
		return strings.Contains(string(record), text)
	}
	keep := func(f batch.Fact) {
		t.Helper()
		if _, err := l.Append(code, f, now); err != nil {
			t.Fatal(err)
		}
	}
	keep(batch.Noted{Text: "the window is open"})
	keep(batch.Corrected{Seq: 2, Reason: "it is not", With: batch.Noted{Text: "the window is shut"}})
	if !says("the window is shut") {
		t.Error("the copy lacks a correction")
	}
	keep(batch.Noted{Text: "a gull at the door"})
	if err := l.Release(code); err != nil {
		t.Fatal(err)
	}
	if record, _ := os.ReadFile(copyPath(home, code)); !strings.Contains(string(record), "a gull at the door") {
		t.Error("the copy lacks the last fact of a batch that was let go")
	}
}

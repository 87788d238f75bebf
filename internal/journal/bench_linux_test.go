package journal_test

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"golang.org/x/sys/unix"

	"bench/internal/journal"
)

var benchBody = fmt.Appendf(nil, `{"material":"olive oil","target":500000,"actual":500120,"scale":"kitchen","reads_to":1000,"tare":212000,"lot":"OL-2291","note":%q}`,
	"first of three pours, the lighthouse loaf")

// BenchmarkAppend beside BenchmarkAppendBare shows what the store costs beyond
// the one flush that no store can do without.
func BenchmarkAppend(b *testing.B) {
	w := holdBatch(b, open(b, b.TempDir(), journal.Options{}), "26K25A")
	for b.Loop() {
		_, err := w.Append("weighed", benchBody, []string{"OL-2291"}, stamp(0))
		must(b, err)
	}
}

func BenchmarkAppendBare(b *testing.B) {
	f, err := os.OpenFile(filepath.Join(b.TempDir(), "bare"), os.O_CREATE|os.O_APPEND|os.O_WRONLY, 0o600)
	must(b, err)
	defer func() { must(b, f.Close()) }()
	for b.Loop() {
		_, err := f.Write(benchBody)
		must(b, err)
		must(b, unix.Fdatasync(int(f.Fd())))
	}
}

// benchStore makes a store of 200 batches of 20 facts.
func benchStore(b *testing.B) string {
	b.Helper()
	dir := b.TempDir()
	s := open(b, dir, journal.Options{})
	for i := range 200 {
		w := holdBatch(b, s, fmt.Sprintf("26K%03d", i))
		add(b, w, 0, 20)
		must(b, w.Release())
	}
	must(b, s.Close())
	return dir
}

func BenchmarkOpen(b *testing.B) {
	for _, readOnly := range []bool{false, true} {
		b.Run(fmt.Sprintf("readOnly=%v", readOnly), func(b *testing.B) {
			dir := benchStore(b)
			for b.Loop() {
				s, err := journal.Open(dir, journal.Options{ReadOnly: readOnly})
				must(b, err)
				b.StopTimer()
				must(b, s.Close())
				b.StartTimer()
			}
		})
	}
}

func BenchmarkBatches(b *testing.B) {
	s := open(b, benchStore(b), journal.Options{})
	for b.Loop() {
		heads, err := s.Batches()
		if err != nil || len(heads) != 200 {
			b.Fatal(len(heads), err)
		}
	}
}

func BenchmarkRecords(b *testing.B) {
	s := open(b, b.TempDir(), journal.Options{})
	add(b, holdBatch(b, s, "26K25A"), 0, 120)
	for b.Loop() {
		_, err := s.Records("26K25A")
		must(b, err)
	}
}

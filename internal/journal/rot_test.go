package journal_test

import (
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"bench/internal/journal"
)

// rotten writes a store's bytes, changed, into a new folder.
func rotten(t *testing.T, data []byte) string {
	t.Helper()
	dir, err := os.MkdirTemp("", "rot") // Not the test's: there are thousands.
	must(t, err)
	must(t, os.WriteFile(filepath.Join(dir, "journal.db"), data, 0o600))
	return dir
}

// wantNothingGuessed holds a store that may be damaged to its word: what it gives
// out without an error is right and complete, Verify finds what is not, and what
// salvage calls sound is a part of the truth. It says whether anything was wrong.
func wantNothingGuessed(t *testing.T, dir, what string, truth map[string][]journal.Record) (found bool) {
	t.Helper()
	defer func() { must(t, os.RemoveAll(dir)) }()
	s, err := journal.Open(dir, journal.Options{ReadOnly: true})
	if err != nil {
		return true
	}
	defer func() { _ = s.Close() }()
	check, err := s.Verify(nil)
	named := err != nil || check.Err() != nil
	for batch, want := range truth {
		got, err := s.Records(batch)
		if len(got) > len(want) || diff(want[:len(got)], got) != "" {
			t.Fatalf("%s: batch %s reads %v, error %v", what, batch, got, err)
		}
		if err == nil && len(got) < len(want) {
			t.Fatalf("%s: %d of %d facts of batch %s, and no error", what, len(got), len(want), batch)
		}
		if err != nil && !named {
			t.Fatalf("%s: %v, and Verify found nothing", what, err)
		}
	}
	_ = s.Salvage(func(b journal.Salvaged) error {
		want := truth[b.Batch]
		if n := len(b.Sound); n > len(want) || diff(want[:n], b.Sound) != "" {
			t.Fatalf("%s: of batch %s sound is said to be %v", what, b.Batch, b.Sound)
		}
		return nil
	})
	return named
}

func truthOf(t *testing.T) (data []byte, truth map[string][]journal.Record) {
	t.Helper()
	dir := t.TempDir()
	a, b := filled(t, dir)
	return []byte(snapshot(t, dir)["journal.db"]), map[string][]journal.Record{"26K25A": a, "26K26B": b}
}

// page is the size of a page of the file.
const page = 4096

// thorough has the tests below try every byte; otherwise they try some. It is
// `make rot`.
func thorough() bool { return os.Getenv("BENCH_ROT") == "all" }

// TestTruncated cuts the file within its last page, and at every page.
func TestTruncated(t *testing.T) {
	data, truth := truthOf(t)
	tried := 0
	for size := len(data) - 1; size >= 0; size-- {
		if size%page != 0 && (size < len(data)-page || !thorough() && size%13 != 0) {
			continue
		}
		tried++
		if !wantNothingGuessed(t, rotten(t, data[:size]), "cut", truth) {
			t.Fatalf("a file cut from %d to %d bytes is found whole", len(data), size)
		}
	}
	t.Logf("%d cuts", tried)
}

// TestFlipped flips single bits all over the file, one in a byte.
func TestFlipped(t *testing.T) {
	data, truth := truthOf(t)
	chance := rand.New(rand.NewPCG(20261125, 0))
	unseen, tried := 0, 0
	for at := range data {
		if !thorough() && chance.IntN(40) > 0 {
			continue
		}
		bit := chance.IntN(8)
		flipped := append([]byte{}, data...)
		flipped[at] ^= 1 << bit
		tried++
		if !wantNothingGuessed(t, rotten(t, flipped), "bit", truth) {
			unseen++
		}
	}
	t.Logf("%d bits flipped, %d of them where nothing is kept", tried, unseen)
	if unseen == tried {
		t.Error("nothing was found at all")
	}
}

// TestGarbled fills whole sectors with noise: what can be read is exported.
func TestGarbled(t *testing.T) {
	data, truth := truthOf(t)
	chance := rand.New(rand.NewPCG(20261125, 1))
	for at := 0; at < len(data); at += 512 {
		garbled := append([]byte{}, data...)
		for i := range 512 {
			garbled[at+i] = byte(chance.Uint32())
		}
		wantNothingGuessed(t, rotten(t, garbled), "sector", truth)
	}
}

// TestSalvagePastADamagedPage loses one page of a large table, and nothing else.
func TestSalvagePastADamagedPage(t *testing.T) {
	dir := t.TempDir()
	s := open(t, dir, journal.Options{})
	w := holdBatch(t, s, "26K25A")
	want := add(t, w, 0, 400)
	must(t, s.Close())
	data := []byte(snapshot(t, dir)["journal.db"])
	for i := len(data)/page/2 - 1; i < len(data)/page; i++ {
		if data[i*page] == 0x0d { // a leaf of the table: https://sqlite.org/fileformat2.html
			for n := range 64 {
				data[i*page+n] = 0xff
			}
			break
		}
	}
	damaged := rotten(t, data)
	defer func() { must(t, os.RemoveAll(damaged)) }()
	s = open(t, damaged, journal.Options{ReadOnly: true})
	found := 0
	must(t, s.Salvage(func(b journal.Salvaged) error {
		if b.Bad == nil {
			t.Error("the damage was not found")
		}
		if d := diff(want[:len(b.Sound)], b.Sound); d != "" {
			t.Errorf("sound (-want +got):\n%s", d)
		}
		for _, r := range b.Loose {
			if d := diff(want[r.Seq-1], r); d != "" {
				t.Errorf("loose (-want +got):\n%s", d)
			}
		}
		found += len(b.Sound) + len(b.Loose)
		return nil
	}))
	t.Logf("%d of %d facts", found, len(want))
	if found < len(want)-40 || found == len(want) {
		t.Errorf("%d of %d facts were salvaged", found, len(want))
	}
}

// Facts cut off at the end leave a sound chain behind; the store knows its end.
func TestCutOffFactsShow(t *testing.T) {
	for sql, seq := range map[string]int{
		`DELETE FROM fact WHERE batch = '26K25A' AND seq > 6`: 7,
		`DELETE FROM fact WHERE batch = '26K25A'`:             1,
	} {
		dir := t.TempDir()
		filled(t, dir)
		must(t, tamper(t, dir, dropTriggers+sql))
		s := open(t, dir, journal.Options{})
		_, err := s.Records("26K25A")
		wantDamage(t, err, seq, "that were saved is gone")
		_, err = s.Hold("26K25A", stamp(9))
		wantDamage(t, err, seq, "that were saved is gone")
	}
}

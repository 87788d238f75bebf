package journal_test

import (
	"bufio"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"
	"time"

	"bench/internal/journal"
)

// TestKillAtRandomPoints kills a writer with SIGKILL again and again. What it
// acknowledged must be there, at most one fact more, and the next must go on.
func TestKillAtRandomPoints(t *testing.T) {
	dir := t.TempDir()
	seed := uint64(time.Now().UnixNano())
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 0))
	var before []journal.Record
	for round := range 30 {
		acked := killed(t, dir, rng)
		readOnly := round%2 == 0
		main := snapshot(t, dir)["journal.db"]
		s := open(t, dir, journal.Options{ReadOnly: readOnly})
		rs, err := s.Records("26K25A")
		must(t, err)
		if len(rs) < acked || len(rs) > acked+1 {
			t.Fatalf("round %d: %d facts acknowledged, %d found", round, acked, len(rs))
		}
		if d := diff(before, rs[:len(before)]); d != "" {
			t.Fatalf("round %d: earlier facts changed:\n%s", round, d)
		}
		before = rs
		must(t, s.Close())
		if readOnly && snapshot(t, dir)["journal.db"] != main {
			t.Fatalf("round %d: a reader changed the main file after a crash", round)
		}
	}
	t.Logf("%d facts in the end", len(before))
}

// killed lets a child append until it has acknowledged some facts and a random
// moment has passed, kills it, and returns the last number acknowledged.
func killed(t *testing.T, dir string, rng *rand.Rand) (acked int) {
	t.Helper()
	cmd := childProcess(t, dir, "26K25A", 1000) // a bound, should the kill fail
	out, err := cmd.StdoutPipe()
	must(t, err)
	must(t, cmd.Start())
	atLeast, moment := 1+rng.IntN(40), time.Duration(rng.IntN(1500))*time.Microsecond
	lines := bufio.NewScanner(out)
	for n := 0; lines.Scan(); n++ {
		line := strings.TrimSpace(lines.Text())
		if line == "holding" {
			continue
		}
		seq, err := strconv.Atoi(line)
		if err != nil {
			t.Fatalf("the child said %q", line)
		}
		acked = seq
		if n == atLeast {
			go func() {
				time.Sleep(moment)
				_ = cmd.Process.Kill()
			}()
		}
	}
	_ = cmd.Wait() // says that it was killed
	if acked == 0 {
		t.Fatal("the child acknowledged nothing")
	}
	return acked
}

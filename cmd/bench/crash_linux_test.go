package main

import (
	"bufio"
	"encoding/json"
	"errors"
	"io/fs"
	"os"
	"strconv"
	"testing"
	"time"
)

// crashRound is one batch of the long run, as a line of its report.
type crashRound struct {
	Seed     uint64  // Seed has the kills of this round fall where they did.
	Kills    int     // Kills are by SIGKILL.
	Facts    int     // Facts are those of the batch in the end.
	InFlight int     // InFlight were found although the screen had not shown them yet.
	Lost     int     // Lost were shown as saved and not found: the run ends at the first.
	Seconds  float64 // Seconds is how long the round took.
	Ended    time.Time
}

// TestCrashes is the long run: batch after batch, each killed until it is made,
// up to BENCH_KILLS in all. BENCH_REPORT names the file that gets a line a
// round; a run that was broken off goes on after its last line. It is
// `make crash`, and skipped otherwise.
func TestCrashes(t *testing.T) {
	wanted, err := strconv.Atoi(os.Getenv("BENCH_KILLS"))
	if err != nil {
		t.Skip("BENCH_KILLS does not say how many: make crash")
	}
	report := os.Getenv("BENCH_REPORT")
	done, seed := crashReport(t, report)
	twin := uncrashed(t)
	for ; done < wanted; seed++ {
		began := time.Now()
		round := crashRound{Seed: seed}
		t.Run(strconv.FormatUint(seed, 10), func(t *testing.T) {
			c := newCrash(t, t.TempDir(), seed, twin)
			c.killed(wanted - done)
			c.finishes()
			round.Kills, round.Facts, round.InFlight = c.kills, len(twin), c.inFlight
		})
		if t.Failed() {
			t.Fatalf("seed %d", seed)
		}
		done += round.Kills
		round.Seconds, round.Ended = time.Since(began).Seconds(), time.Now().UTC().Truncate(time.Second)
		addLine(t, report, round)
	}
	t.Logf("%d kills, nothing lost; %s", done, report)
}

// crashReport adds up the report of earlier rounds, and gives the next seed.
func crashReport(t *testing.T, path string) (done int, seed uint64) {
	t.Helper()
	seed = killSeed
	f, err := os.Open(path)
	if path == "" || errors.Is(err, fs.ErrNotExist) {
		return 0, seed
	}
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	for lines := bufio.NewScanner(f); lines.Scan(); {
		var r crashRound
		if err := json.Unmarshal(lines.Bytes(), &r); err != nil {
			t.Fatalf("%s: %v", path, err)
		}
		done, seed = done+r.Kills, r.Seed+1
	}
	return done, seed
}

func addLine(t *testing.T, path string, r crashRound) {
	t.Helper()
	line, err := json.Marshal(r)
	if err != nil {
		t.Fatal(err)
	}
	if path == "" {
		t.Logf("%s", line)
		return
	}
	f, err := os.OpenFile(path, os.O_CREATE|os.O_APPEND|os.O_WRONLY, 0o600)
	if err == nil {
		_, err = f.Write(append(line, '\n'))
		err = errors.Join(err, f.Close())
	}
	if err != nil {
		t.Fatal(err)
	}
}

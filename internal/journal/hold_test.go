package journal_test

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"bench/internal/journal"
)

func wantHeld(t *testing.T, err error, pid int) {
	t.Helper()
	var held *journal.HeldError
	if !errors.As(err, &held) {
		t.Fatalf("got error %v, want a HeldError", err)
	}
	host, _ := os.Hostname()
	if held.Batch != "26K25A" || held.PID != pid || held.Host != host || !held.Since.Equal(stamp(0).Wall) {
		t.Errorf("the holder is said to be %+v, it is process %d on %s", held, pid, host)
	}
}

func TestOneWriterInOneProgram(t *testing.T) {
	dir := t.TempDir()
	s, other := open(t, dir, journal.Options{}), open(t, dir, journal.Options{})
	w := holdBatch(t, s, "26K25A")
	for _, second := range []*journal.Store{s, other} {
		_, err := second.Hold("26K25A", stamp(5))
		wantHeld(t, err, os.Getpid())
	}
	holdBatch(t, other, "26k25a/../26K25A") // another batch, whatever it looks like
	want := add(t, w, 0, 1)
	must(t, w.Release())
	w = holdBatch(t, other, "26K25A")
	wantRecords(t, s, "26K25A", append(want, add(t, w, 1, 2)...))
	must(t, other.Close()) // frees what it holds
	holdBatch(t, s, "26K25A")
}

func TestHolderInAnotherProcess(t *testing.T) {
	dir := t.TempDir()
	s := open(t, dir, journal.Options{})
	cmd := childProcess(t, dir, "26K25A", 0)
	out, err := cmd.StdoutPipe()
	must(t, err)
	must(t, cmd.Start())
	line, err := bufio.NewReader(out).ReadString('\n')
	if err != nil || line != "holding\n" {
		t.Fatalf("the child said %q, %v", line, err)
	}
	_, err = s.Hold("26K25A", stamp(5)) // The child holds it until it is killed below.
	wantHeld(t, err, cmd.Process.Pid)
	holdBatch(t, s, "26K26B") // other batches are free
	must(t, cmd.Process.Kill())
	_ = cmd.Wait() // says that it was killed
	add(t, holdBatch(t, s, "26K25A"), 0, 1)
}

func TestTwoProcessesTwoBatches(t *testing.T) {
	dir := t.TempDir()
	const facts = 100
	a, b := childProcess(t, dir, "26K25A", facts), childProcess(t, dir, "26K26B", facts)
	a.Stdout, b.Stdout = io.Discard, io.Discard
	must(t, a.Start()) // both begin with a folder that has no store
	must(t, b.Start())
	must(t, a.Wait())
	must(t, b.Wait())
	s := open(t, dir, journal.Options{})
	for _, batch := range []string{"26K25A", "26K26B"} {
		rs, err := s.Records(batch)
		if err != nil || len(rs) != facts {
			t.Errorf("batch %s has %d facts, %v", batch, len(rs), err)
		}
	}
}

func TestHolderIsNamed(t *testing.T) {
	dir := t.TempDir()
	s, other := open(t, dir, journal.Options{}), open(t, dir, journal.Options{})
	if h, ok := other.Holder("26K25A"); ok {
		t.Errorf("nobody has it, and the holder is %+v", h)
	}
	w := holdBatch(t, s, "26K25A")
	host, _ := os.Hostname()
	want := journal.Holder{PID: os.Getpid(), Host: host, Since: stamp(0).Wall, Runs: true}
	if h, ok := other.Holder("26K25A"); !ok || h.PID != want.PID || h.Host != want.Host || !h.Since.Equal(want.Since) || !h.Runs {
		t.Errorf("the holder is %+v, want %+v", h, want)
	}
	must(t, w.Release())
	if h, ok := other.Holder("26K25A"); ok {
		t.Errorf("it was let go, and the holder is %+v", h)
	}
}

// Whoever looks locks for a moment; nobody is refused for that.
func TestLookingRefusesNobody(t *testing.T) {
	dir := t.TempDir()
	s, other := open(t, dir, journal.Options{}), open(t, dir, journal.Options{})
	must(t, holdBatch(t, s, "26K25A").Release())
	stop, done := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(done)
		for {
			select {
			case <-stop:
				return
			case <-time.After(20 * time.Microsecond):
				other.Holder("26K25A")
			}
		}
	}()
	for range 300 {
		must(t, holdBatch(t, s, "26K25A").Release())
	}
	close(stop)
	<-done
}

// leftBy writes the words of a holder that never let go.
func leftBy(t *testing.T, dir, words string) {
	t.Helper()
	must(t, os.WriteFile(filepath.Join(dir, "hold", "26K25A.lock"), []byte(words), 0o600))
}

func TestLeftOpen(t *testing.T) {
	dir := t.TempDir()
	s := open(t, dir, journal.Options{})
	host, _ := os.Hostname()
	leftBy(t, dir, fmt.Sprintf(`{"pid":12,"host":%q,"since":"2026-11-25T09:25:45+01:00"}`, host))
	if h, ok := s.Holder("26K25A"); !ok || h.Runs || h.PID != 12 {
		t.Errorf("a killed holder is %+v", h)
	}
	must(t, holdBatch(t, s, "26K25A").Release()) // Here, the lock says it all.

	leftBy(t, dir, `{"pid":12,"host":"quay","since":"2026-11-25T09:25:45+01:00"}`)
	_, err := s.Hold("26K25A", stamp(1))
	var held *journal.HeldError
	if !errors.As(err, &held) || !held.Elsewhere || held.Host != "quay" || !strings.Contains(err.Error(), "left open on quay: process 12") {
		t.Fatalf("got error %v", err)
	}
	if h, ok := s.Holder("26K25A"); !ok || h.Runs || h.Host != "quay" {
		t.Errorf("a holder elsewhere is %+v", h)
	}
	w, err := s.TakeOver("26K25A", stamp(1))
	must(t, err)
	_, err = s.TakeOver("26K25A", stamp(1)) // It never takes from who has the lock.
	if !errors.As(err, &held) || held.Elsewhere || held.PID != os.Getpid() {
		t.Errorf("got error %v", err)
	}
	add(t, w, 0, 1)
}

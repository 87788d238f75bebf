package main

import (
	"math/rand/v2"
	"os"
	"reflect"
	"syscall"
	"testing"

	"bench/internal/batch"
	"bench/internal/brittle"
	"bench/internal/journal"
	"bench/internal/ledger"
	"bench/internal/steps"
	"bench/internal/work"
)

// errnos are what a disk says: full, broken, read-only, too many open files.
var errnos = []syscall.Errno{syscall.ENOSPC, syscall.EIO, syscall.EROFS, syscall.EMFILE}

// TestFaultAtEveryChange makes a whole batch on a disk that refuses every single
// change once: each is tried until a fact meets no fault. While it does not, the
// screen says that it was not saved, nothing of it is in the store, and the same
// key saves it in the end. BENCH_FAULTS=all gives every change all four errors,
// once and for good; otherwise they take turns.
func TestFaultAtEveryChange(t *testing.T) {
	t.Parallel()
	turns := 1
	if os.Getenv("BENCH_FAULTS") == "all" {
		turns = 2 * len(errnos)
	}
	disk, done := brittle.New(t.Name())
	t.Cleanup(done)
	tried, after := 0, 0
	for turn := range turns {
		s := sitsDown(t, t.TempDir(), t.Name())
		s.begins()
		s.shows("batch 260302A", "stage 1 of")
		s.knows("260302A")
		for n := 0; ; n++ {
			task, keys, f, more := s.next()
			if !more {
				break
			}
			kind := n + turn
			met, kept := s.meetsFaults(disk, task, keys, f, errnos[kind%len(errnos)], kind/len(errnos)%2 == 1)
			tried, after = tried+met, after+kept
		}
		disk.Watch(nil)
		s.agrees()
		s.ends()
	}
	t.Logf("%d changes refused, %d of them after the fact was saved", tried, after)
	if tried < 300*turns {
		t.Errorf("only %d changes were refused", tried)
	}
}

// meetsFaults answers a task while change after change is refused, until it is
// saved. It gives how many were refused, and how many of these did not matter.
func (s *sitting) meetsFaults(disk *brittle.Disk, task work.Task, keys string, f batch.Fact, errno syscall.Errno, stays bool) (met, after int) {
	s.t.Helper()
	for n := 0; ; n++ {
		fault := &brittle.Fault{N: n, Err: errno, Stays: stays}
		disk.Watch(fault.Before)
		s.press(keys)
		disk.Watch(nil)
		if fault.Fired {
			met++
		}
		if !s.says("NOT SAVED") {
			break
		}
		if !fault.Fired {
			s.t.Fatalf("%s: not saved, and no change was refused:\n%s", task.ID, s.model.View())
		}
		s.agrees() // Nothing of it is there, and all else is.
		s.press("q")
		s.shows("The last entry is not saved.")
		keys = neutral + "r"
	}
	s.take(f)
	s.agrees()
	if next, ok := s.maker.next(); ok {
		s.shows(start(next.Title))
	}
	return met, after
}

// TestPowerCutInTheProgram records every change of the disk that a whole batch
// makes, from the first file on, and cuts the power after each. What the screen
// had shown as saved is there, and at most the one fact in flight more. On a slow
// machine BENCH_FAULTS=all tries each place; otherwise every third.
func TestPowerCutInTheProgram(t *testing.T) {
	t.Parallel()
	disk, done := brittle.New(t.Name())
	t.Cleanup(done)
	var log []brittle.Op
	disk.Watch(func(o brittle.Op) error { log = append(log, o); return nil })
	s := sitsDown(t, t.TempDir(), t.Name())
	s.begins()
	s.shows("batch 260302A", "stage 1 of")
	s.knows("260302A")
	shown := []int{len(log)} // shown is how long the log was when a fact showed as saved.
	for {
		_, keys, f, more := s.next()
		if !more {
			break
		}
		s.press(keys)
		s.take(f)
		s.settles("saved fact", func() bool { return !s.busy() })
		shown = append(shown, len(log))
	}
	s.agrees()
	s.ends()
	disk.Watch(nil)

	chance := rand.New(rand.NewPCG(killSeed, 2))
	step, cuts := 3, 0
	if os.Getenv("BENCH_FAULTS") == "all" {
		step = 1
	}
	for cut := chance.IntN(step); cut <= len(log); cut += step {
		acked := 0
		for acked < len(shown) && shown[acked] <= cut {
			acked++
		}
		for _, keep := range []float64{0, 0.5, 1} {
			s.comesBack(log[:cut], keep, chance, acked)
			cuts++
		}
	}
	t.Logf("%d changes of the disk, %d power cuts, %d facts", len(log), cuts, len(s.state.Entries))
}

// comesBack starts again after a power cut.
func (s *sitting) comesBack(log []brittle.Op, keep float64, chance *rand.Rand, acked int) {
	s.t.Helper()
	home, err := os.MkdirTemp("", "cut") // Not the test's: there are thousands.
	if err != nil {
		s.t.Fatal(err)
	}
	defer os.RemoveAll(home)
	if err := brittle.PowerCut(home, log, keep, chance); err != nil {
		s.t.Fatal(err)
	}
	store, err := journal.Open(home, journal.Options{})
	if err != nil {
		s.t.Fatalf("cut %d, keep %v: %v", len(log), keep, err)
	}
	defer store.Close()
	state, err := ledger.Of(store, home).State("260302A")
	if err != nil {
		s.t.Fatalf("cut %d, keep %v: %v", len(log), keep, err)
	}
	n := len(state.Entries)
	if n < acked || n > acked+1 {
		s.t.Fatalf("cut %d, keep %v: %d facts were shown as saved, and %d are there", len(log), keep, acked, n)
	}
	if !reflect.DeepEqual(facts(state.Entries), facts(s.state.Entries[:n])) {
		s.t.Fatalf("cut %d, keep %v: the facts differ", len(log), keep)
	}
	for i := range state.Entries {
		state.Entries[i].At = s.state.Entries[i].At
	}
	if chance.IntN(20) == 0 { // It follows from the facts.
		got, want := steps.Of(batch.Fold(state.Entries)), steps.Of(batch.Fold(s.state.Entries[:n]))
		if !reflect.DeepEqual(got, want) {
			s.t.Fatalf("cut %d, keep %v: the plan differs", len(log), keep)
		}
	}
}

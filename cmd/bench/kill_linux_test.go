package main

import (
	"errors"
	"io/fs"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/console"
	"bench/internal/journal"
	"bench/internal/say"
	"bench/internal/steps"
)

// Where the kills fall: change the seed to have others. `make crash` runs many
// more rounds than one; see crash_linux_test.go.
const (
	kills    = 50
	killSeed = 20260302
)

// TestKilledAnywhere makes one batch with a program that is killed fifty times:
// at the start, between keys, within a number, and while a fact is being
// written. What the screen had shown as saved is there, nothing is there that
// nobody said, and the plan is that of a batch which was made without a crash.
func TestKilledAnywhere(t *testing.T) {
	t.Parallel()
	c := newCrash(t, t.TempDir(), killSeed, uncrashed(t))
	c.killed(kills)
	t.Logf("seed %d: %d facts after %d kills, %d of them found although the screen had not shown them yet",
		killSeed, c.saved, c.kills, c.inFlight)
	c.finishes()
}

// uncrashed makes the batch without a crash, and gives its facts.
func uncrashed(t *testing.T) []batch.Entry {
	t.Helper()
	twin := sits(t, t.TempDir(), dawn).begins("260302A")
	twin.works("")
	twin.agrees()
	twin.Kill()
	return kept(t, twin.home, twin.code)
}

// crash is a batch that is made again and again as far as a kill.
type crash struct {
	t      *testing.T
	home   string
	chance *rand.Rand
	twin   []batch.Entry // twin is the batch without a crash.
	lines  []string      // lines are its facts, as the screen says them.
	saved  int           // saved counts the facts found after the last kill.

	kills    int
	inFlight int // inFlight counts facts that were found and not yet shown as saved.
}

func newCrash(t *testing.T, home string, seed uint64, twin []batch.Entry) *crash {
	c := &crash{t: t, home: home, chance: rand.New(rand.NewPCG(seed, 0)), twin: twin}
	for n, state := 0, (batch.State{}); n < len(twin); n++ {
		state = state.Apply(twin[n])
		c.lines = append(c.lines, say.Fact(twin[n], steps.Of(state), state))
	}
	return c
}

// killed kills the program so many times, or until the batch is made.
func (c *crash) killed(times int) {
	c.t.Helper()
	for n := 0; n < times && c.saved < len(c.twin); n++ {
		before, sent := c.run()
		c.kills++
		if c.check(before, sent) > before {
			c.inFlight++
		}
	}
}

// finishes makes the rest of the batch without a crash: it is the twin's.
func (c *crash) finishes() {
	c.t.Helper()
	m := sits(c.t, c.home, c.clock()).reopens("260302A")
	m.works("")
	m.agrees()
	m.Kill()
	if got, want := facts(m.state.Entries), facts(c.twin); !reflect.DeepEqual(got, want) {
		c.t.Errorf("in the end there are %d facts, and without a crash %d", len(got), len(want))
	}
}

// clock is when the program is opened again: shortly after the last fact, so
// that no timer falls due which the twin did not have.
func (c *crash) clock() time.Time {
	if c.saved == 0 {
		return dawn
	}
	entries := kept(c.t, c.home, "260302A")
	return entries[len(entries)-1].At.Wall.Add(time.Second)
}

// run opens the program, works on, and kills it. It gives how many facts the
// screen had shown as saved, and how many had been sent.
func (c *crash) run() (shown, sent int) {
	c.t.Helper()
	m := &maker{t: c.t, home: c.home, speed: haste}
	m.Console = console.Start(c.t, program(c.t, c.home, clocked(c.clock())...), 80, 24)
	defer m.HangUp()
	if c.chance.IntN(10) == 0 {
		c.kill(m, 30*time.Millisecond) // While it opens.
		return c.saved, c.saved
	}
	m.Sees("Recipes", "Tide lines")
	switch {
	case c.saved > 0:
		m.reopens("260302A")
	case c.chance.IntN(2) == 0:
		m.setsUp()
		m.Send(up + enter)
		c.kill(m, 5*time.Millisecond)
		return c.shown(m, 0), 1
	default:
		m.begins("260302A")
	}
	return c.work(m)
}

// work does a few tasks, and is killed at the next, or within its number.
func (c *crash) work(m *maker) (shown, sent int) {
	c.t.Helper()
	task, more := m.next()
	for n := c.chance.IntN(5); n > 0 && more; n-- {
		m.says(m.keysFor(task))
		task, more = m.next()
	}
	shown = len(m.state.Entries)
	if !more {
		c.kill(m, time.Millisecond)
		return shown, shown
	}
	keys, _ := m.keysFor(task)
	if c.chance.IntN(5) == 0 {
		keys = keys[:c.chance.IntN(len(keys))]
	}
	m.Send(keys)
	c.kill(m, 4*time.Millisecond)
	return c.shown(m, shown), shown + 1
}

func (c *crash) kill(m *maker, within time.Duration) {
	c.t.Helper()
	time.Sleep(time.Duration(c.chance.Int64N(int64(within))))
	m.Kill()
}

// shown gives how many facts the screen shows as saved, the one in flight
// included if it got that far. Where two facts in a row read alike, as those of
// scent cups do, the later one counts as not shown.
func (c *crash) shown(m *maker, known int) int {
	line := c.lines[known]
	if !slices.Contains(c.lines[max(0, known-2):known], line) && showsSaved(m.Screen(), line) {
		return known + 1
	}
	return known
}

// check reads the store back and gives how many facts it holds.
func (c *crash) check(shown, sent int) int {
	c.t.Helper()
	var entries []batch.Entry
	if shown > 0 || c.made() {
		entries = kept(c.t, c.home, "260302A")
	}
	c.saved = len(entries)
	if c.saved < shown || c.saved > sent {
		c.t.Fatalf("%d facts were kept; the screen had shown %d and %d were sent", c.saved, shown, sent)
	}
	for n := range entries {
		entries[n].At = c.twin[n].At
	}
	twin := c.twin[:c.saved]
	if !reflect.DeepEqual(facts(entries), facts(twin)) {
		c.t.Fatalf("the facts differ from the twin's:\n%+v\n%+v", entries, twin)
	}
	if !reflect.DeepEqual(steps.Of(batch.Fold(entries)), steps.Of(batch.Fold(twin))) {
		c.t.Fatalf("the plan after %d facts differs from the twin's", c.saved)
	}
	return c.saved
}

// made says that the program came as far as making a store.
func (c *crash) made() bool {
	c.t.Helper()
	store, err := journal.Open(c.home, journal.Options{ReadOnly: true})
	if errors.Is(err, fs.ErrNotExist) {
		return false
	}
	if err == nil {
		err = store.Close()
	}
	if err != nil {
		c.t.Fatal(err)
	}
	return true
}

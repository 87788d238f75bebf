package plain

import (
	"io"
	"strings"
	"sync"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/front"
	"bench/internal/memory"
	"bench/internal/sample"
	"bench/internal/steps"
	"bench/internal/timer"
)

var morning = time.Date(2026, time.November, 25, 9, 0, 0, 0, time.UTC)

// patience is for a busy machine: what comes is not waited for by time.
const patience = 2 * time.Minute

// talker is somebody who talks through a batch: types a line, hears what is said
// up to the next prompt, waits. The talk runs beside the test and stands still
// while it waits for a line.
type talker struct {
	t     testing.TB
	store *memory.Store
	in    *io.PipeWriter
	alarm chan time.Time
	stop  chan struct{}

	mu       sync.Mutex
	clock    time.Time // clock is read by the talk right after a prompt, too.
	out      strings.Builder
	from     int // from is where what was heard last begins.
	fail     error
	prompted chan struct{}
	ended    chan error
}

func talks(t testing.TB, s *memory.Store, change ...func(*Deps)) *talker {
	t.Helper()
	in, hand := io.Pipe()
	k := &talker{
		t: t, store: s, clock: morning, in: hand, alarm: make(chan time.Time), stop: make(chan struct{}),
		prompted: make(chan struct{}, 1000), ended: make(chan error, 1),
	}
	d := Deps{
		In: in, Out: k, Echo: true, Location: time.UTC, Now: k.moment, Stop: k.stop,
		Wait:    func(time.Duration) <-chan time.Time { return k.alarm },
		Recipes: func() []front.RecipeItem { return sample.Recipes(t) }, Store: s,
		Texts: Texts{
			Plan:   func(p steps.Plan) string { return "the plan of " + p.Recipe },
			Record: func(code string, _ batch.State) string { return "the record of " + code },
			Why:    func(batch.State) string { return "the reasons" },
		},
	}
	for _, f := range change {
		f(&d)
	}
	go func() { k.ended <- Run(d) }()
	t.Cleanup(func() { _ = hand.Close() })
	k.listens()
	return k
}

func (k *talker) moment() timer.Moment {
	k.mu.Lock()
	defer k.mu.Unlock()
	return timer.Moment{Wall: k.clock, Boot: "boot-1", SinceBoot: k.clock.Sub(morning) + time.Hour}
}

// Write is what the talk writes to.
func (k *talker) Write(p []byte) (int, error) {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.fail != nil {
		return 0, k.fail
	}
	k.out.Write(p)
	if strings.HasSuffix(string(p), "> ") {
		k.prompted <- struct{}{}
	}
	return len(p), nil
}

// listens waits for the next prompt, or for the end.
func (k *talker) listens() {
	k.t.Helper()
	select {
	case <-k.prompted:
	case err := <-k.ended:
		k.ended <- err
	case <-time.After(patience):
		k.t.Fatalf("no prompt came:\n%s", k.all())
	}
}

func (k *talker) all() string {
	k.mu.Lock()
	defer k.mu.Unlock()
	return k.out.String()
}

// says types lines one after the other, a second apart.
func (k *talker) says(lines ...string) *talker {
	k.t.Helper()
	for _, l := range lines {
		k.waits(time.Second)
		k.from = len(k.all())
		if _, err := io.WriteString(k.in, l+"\n"); err != nil {
			k.t.Fatal(err)
		}
		k.listens()
	}
	return k
}

func (k *talker) heard() string { return k.all()[k.from:] }

func (k *talker) hears(texts ...string) *talker {
	k.t.Helper()
	for _, text := range texts {
		if !strings.Contains(k.heard(), text) {
			k.t.Fatalf("%q was not said:\n%s", text, k.heard())
		}
	}
	return k
}

func (k *talker) hearsNot(texts ...string) *talker {
	k.t.Helper()
	for _, text := range texts {
		if strings.Contains(k.heard(), text) {
			k.t.Fatalf("%q was said:\n%s", text, k.heard())
		}
	}
	return k
}

// ends waits for the end of the talk.
func (k *talker) ends() error {
	k.t.Helper()
	select {
	case err := <-k.ended:
		return err
	case <-time.After(patience):
		k.t.Fatalf("the talk goes on:\n%s", k.all())
		return nil
	}
}

func (k *talker) waits(d time.Duration) *talker {
	k.mu.Lock()
	defer k.mu.Unlock()
	k.clock = k.clock.Add(d)
	return k
}

// wakes lets the time come that the talk waits for.
func (k *talker) wakes() *talker {
	k.t.Helper()
	select {
	case k.alarm <- k.moment().Wall:
	case <-time.After(patience):
		k.t.Fatalf("no time is waited for:\n%s", k.all())
	}
	return k
}

// starts begins a batch of the first recipe.
func (k *talker) starts() *talker {
	k.t.Helper()
	return k.says("1", "start").hears("Begun: batch 26K25")
}

const code = "26K25A"

func (k *talker) plan() steps.Plan { return steps.Of(batch.Fold(k.store.Entries[code])) }

// recorded demands that so many facts were kept after the first.
func (k *talker) recorded(n int) *talker {
	k.t.Helper()
	if got := len(k.store.Entries[code]) - 1; got != n {
		k.t.Fatalf("%d facts were kept, not %d:\n%s", got, n, k.heard())
	}
	return k
}

func (k *talker) last() batch.Fact {
	list := k.store.Entries[code]
	return list[len(list)-1].Fact
}

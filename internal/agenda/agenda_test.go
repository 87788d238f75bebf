package agenda_test

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"bench/internal/agenda"
	"bench/internal/batch"
	"bench/internal/sample"
	"bench/internal/steps"
	"bench/internal/timer"
	"bench/internal/work"
)

// story is a batch of one loaf with a clock.
type story struct {
	s  batch.State
	at time.Time
}

func begin(t *testing.T) *story {
	t.Helper()
	c := sample.Control(t, "tide-lines.yaml", 1)
	b := &story{at: time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC)}
	b.say(batch.Started{Control: c})
	return b
}

func (b *story) say(f batch.Fact) {
	b.at = b.at.Add(time.Minute)
	b.s = b.s.With(f, timer.Moment{Wall: b.at})
}

// pour ticks every pour.
func (b *story) pour() {
	for _, st := range steps.Of(b.s).Stages {
		if st.Kind != work.Pour && st.Kind != work.ScentAndPour {
			continue
		}
		for _, task := range st.Tasks {
			if task.Do == work.Tick {
				b.say(batch.Ticked{Task: task.ID})
			}
		}
	}
}

func (b *story) events() map[string]agenda.Event {
	found := map[string]agenda.Event{}
	for _, e := range agenda.Of("260302A", b.s) {
		found[e.Step] = e
	}
	return found
}

func TestNothingLiesAheadBeforeThePour(t *testing.T) {
	if b := begin(t); len(b.events()) != 0 {
		t.Errorf("%v", b.events())
	}
	if got := agenda.Of("none", batch.State{}); len(got) != 0 {
		t.Errorf("%v", got)
	}
}

// A loaf that was too soft moves its unmoulding and what follows: the events are
// the same, their sequence is higher, and the date is later.
func TestEventsKeepTheirIdentityWhenDatesMove(t *testing.T) {
	b := begin(t)
	b.pour()
	before := b.events()
	poured := b.at
	unmould, ok := before["unmould"]
	if want := poured.Add(b.s.Control.Recipe.Unmould); !ok || !unmould.At.Equal(want) || !unmould.Known || unmould.Sequence != 0 {
		t.Fatalf("%+v, want %v", unmould, want)
	}
	for _, id := range []string{"cut", "ready", "weigh-in/1"} {
		if e, ok := before[id]; !ok || e.Known || e.At.Before(unmould.At) {
			t.Errorf("%s: %+v", id, e)
		}
	}
	b.at = unmould.At
	b.say(batch.UnmouldPutOff{Task: "unmould/loaf 1", Why: "too soft", For: 12 * time.Hour})
	after := b.events()
	for id, was := range before {
		now := after[id]
		if now.ID != was.ID || now.Sequence != was.Sequence+1 || !now.At.After(was.At) || now.Gone {
			t.Errorf("%s was %+v, is %+v", id, was, now)
		}
	}
	if want := b.at.Add(12 * time.Hour); !after["unmould"].At.Equal(want) {
		t.Errorf("unmould at %v, want %v", after["unmould"].At, want)
	}
}

// What is done leaves the calendar; a fact that moves nothing changes nothing.
func TestWhatIsDoneIsGone(t *testing.T) {
	b := begin(t)
	b.pour()
	before := agenda.Of("260302A", b.s)
	b.say(batch.Noted{Text: "it smells of the sea"})
	if got := agenda.Of("260302A", b.s); !slices.Equal(got, before) {
		t.Errorf("%v became %v", before, got)
	}
	b.at = b.at.Add(24 * time.Hour)
	b.say(batch.Ticked{Task: "unmould/loaf 1"})
	if e := b.events()["unmould"]; !e.Gone || e.Sequence == 0 || !e.Revised.Equal(b.at) {
		t.Errorf("%+v", e)
	}
	b.say(batch.Closed{Reason: "given away"})
	for _, e := range b.events() {
		if !e.Gone {
			t.Errorf("%+v lies ahead of a closed batch", e)
		}
	}
}

// Two batches of one code, of two makers, have different events.
func TestIdentityIsWide(t *testing.T) {
	one, two := begin(t), begin(t)
	two.s = batch.State{}
	two.at = two.at.Add(time.Second)
	two.say(batch.Started{Control: one.s.Control})
	one.pour()
	two.pour()
	if one.events()["unmould"].ID == two.events()["unmould"].ID {
		t.Error("two batches share an event")
	}
}

func BenchmarkOf(b *testing.B) {
	t := begin(&testing.T{})
	t.pour()
	for b.Loop() {
		agenda.Of("260302A", t.s)
	}
}

// What was given up stays, cancelled, while its day lies ahead or is today; what is
// late stays however late it is.
func TestLasting(t *testing.T) {
	now := time.Date(2026, 3, 4, 18, 0, 0, 0, time.UTC)
	left := agenda.Lasting([]agenda.Event{
		{ID: "gone and over", At: now.AddDate(0, 0, -1), Gone: true},
		{ID: "gone today", At: now.Add(-9 * time.Hour), Gone: true},
		{ID: "gone ahead", At: now.AddDate(0, 0, 9), Gone: true},
		{ID: "late", At: now.AddDate(0, 0, -9)},
	}, now)
	var ids []string
	for _, e := range left {
		ids = append(ids, e.ID)
	}
	if want := []string{"gone today", "gone ahead", "late"}; !slices.Equal(ids, want) {
		t.Errorf("%v, want %v", ids, want)
	}
}

// A release test that failed has a day for the next one, a week later (common practice, no
// source), until one passes then.
func TestAFailedTestComesAgain(t *testing.T) {
	b := begin(t)
	b.pour()
	b.at = b.at.AddDate(0, 0, 50)
	b.say(batch.Tested{Task: "test/alkali", Test: batch.PHTest, Value: 10.8})
	id := fmt.Sprintf("retest/%d", len(b.s.Entries))
	if again := b.events()[id]; !again.Known || again.Gone || !again.At.Equal(b.at.AddDate(0, 0, 7)) {
		t.Fatalf("%+v", again)
	}
	b.at = b.at.AddDate(0, 0, 8)
	b.say(batch.Tested{Task: "test/alkali", Test: batch.PHTest, Value: 9.8, Passed: true})
	if again := b.events()[id]; !again.Gone {
		t.Errorf("%+v", again)
	}
}

package ui

import (
	"reflect"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/memory"
	"bench/internal/timer"
)

// A fact on its way leaves the screen as it is for a moment; a disk that takes
// longer, or another key, ends that.
func TestStillWhileTheStoreWrites(t *testing.T) {
	p := arrives(t, memory.New()).starts().waits(2 * time.Second)
	p.holdBack = true
	if p.gets(keyOf("space")); !p.m.Still() {
		t.Fatal("the screen says at once that it saves")
	}
	if p.gets(slowMsg{}); p.m.Still() {
		t.Fatal("a slow disk is not told about")
	}
	p.sees("… saving")
	if p.waits(time.Second).gets(keyOf("space")); p.m.Still() {
		t.Fatal("a key that comes meanwhile is not answered")
	}
	p.sees("Still saving")
	if p.let(); p.m.Still() {
		t.Fatal("the saved fact is not shown")
	}
	p.recorded(1).seesNot("… saving")
}

// Two keys in one read: the second is answered on the screen.
func TestNotStillForTheSecondOfTwoKeys(t *testing.T) {
	p := arrives(t, memory.New()).starts().waits(2 * time.Second)
	p.holdBack = true
	if p.gets(keyOf(" j")); p.m.Still() {
		t.Fatal("a move after a tick is not shown")
	}
}

// A note closes the line that it was written in at once.
func TestNotStillWhenThePageChanges(t *testing.T) {
	p := arrives(t, memory.New()).starts().press("n").types("thick").waits(time.Second)
	p.holdBack = true
	if p.gets(keyOf("enter")); p.m.Still() {
		t.Fatal("the line stays open while its note is saved")
	}
}

// stubborn keeps facts at another time than it was told.
type stubborn struct{ *memory.Store }

func (s stubborn) Append(code string, f batch.Fact, at timer.Moment) (batch.Entry, error) {
	at.Wall = at.Wall.Add(-time.Hour)
	return s.Store.Append(code, f, at)
}

// What was foreseen is shown of the very fact that the store hands back; another
// one is worked out anew.
func TestForesightGivesWayToTheStore(t *testing.T) {
	p := arrives(t, memory.New()).starts()
	p.press("space").foresaw(true)
	p.m.deps.Store = stubborn{p.store}
	p.press("space").foresaw(false)
}

// foresaw demands that the bench has what the store has, foreseen or not.
func (p *person) foresaw(want bool) *person {
	p.t.Helper()
	entries := p.store.Entries[p.m.bench.Code]
	if !reflect.DeepEqual(p.m.bench.State, batch.Fold(entries)) {
		p.t.Errorf("the bench has %+v, and the store %+v", p.m.bench.State.Entries, entries)
	}
	if got := reflect.DeepEqual(p.m.ahead.after().State, p.m.bench.State); got != want {
		p.t.Errorf("foreseen: %v, not %v", got, want)
	}
	return p
}

// What was foreseen is not shown once the clock has changed something in it.
func TestForesightGivesWayToTheClock(t *testing.T) {
	for _, slow := range []bool{false, true} {
		p := arrives(t, memory.New()).starts().works("sea/olive").waits(2 * time.Second).sees("cooling")
		p.holdBack = true
		p.gets(keyOf("space"))
		if slow {
			p.clock = p.clock.Add(3 * time.Second)
		}
		if p.let(); (p.m.drawn == "") != slow {
			t.Errorf("after a slow disk, %v: shown as foreseen is %v", slow, p.m.drawn != "")
		}
	}
}

package steps_test

import (
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/say"
)

// withdraws takes the last fact of a task back, or gives the words that refuse
// it.
func (b *bencher) withdraws(task string) error {
	seq := 0
	for _, e := range b.state.Entries {
		if batch.Task(e.Fact) == task {
			seq = e.Seq
		}
	}
	f := batch.Withdrawn{Seq: seq, Reason: "it was not so"}
	if err := judge.Allows(b.plan(), f, b.moment()); err != nil {
		return err
	}
	b.put(f)
	return nil
}

// TestTakeBack: what is taken back is open again; what others were built on is
// taken back after them.
func TestTakeBack(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "lye/sea/read back")
	if err := b.withdraws("sea/sodium hydroxide"); err == nil || !strings.Contains(err.Error(), "take that back first") {
		t.Fatalf("alkali under a jug that was weighed after it: %v", err)
	}
	for _, id := range []string{"sea/lye jug/dissolved", "sea/dissolve", "sea/sodium hydroxide"} {
		if err := b.withdraws(id); err != nil {
			t.Fatalf("%s: %v", id, err)
		}
		if task := b.task(t, id); task.Done || !task.Open {
			t.Errorf("%s is still done", id)
		}
	}
	if sum, done := b.state.Mass("sea/sodium hydroxide"); sum != 0 || done {
		t.Errorf("%s are left", sum)
	}
	b.refuses(t, batch.Withdrawn{Seq: 1, Reason: "another recipe"}, "begin another")
	b.refuses(t, batch.Withdrawn{Seq: 2}, "needs its reason")
	if err := b.work(never); err != nil {
		t.Error(err)
	}
}

// TestWithdrawalsNeverBreakThePlan: whatever may be taken back, from the last on, the
// batch can be worked to its end.
func TestWithdrawalsNeverBreakThePlan(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/meet")
	taken := 0
	for seq := len(b.state.Entries); seq > 1; seq-- {
		f := batch.Withdrawn{Seq: seq, Reason: "a slip"}
		if judge.Allows(b.plan(), f, b.moment()) == nil {
			b.put(f)
			taken++
		}
	}
	if taken < 20 {
		t.Fatalf("only %d could be taken back", taken)
	}
	if err := b.work(never); err != nil {
		t.Error(err)
	}
}

// TestCorrectWords gives every kind of fact that holds a value another one; the
// plan follows.
func TestCorrectWords(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "lye/sea/read back")
	seq := 0
	for _, e := range b.state.Entries {
		if batch.Task(e.Fact) == "sea/dissolve" {
			seq = e.Seq
		}
	}
	correct := func(seq int, text, refused string) {
		t.Helper()
		f, err := judge.Correct(b.plan(), b.state, seq, text, "misread")
		if err == nil {
			err = judge.Allows(b.plan(), f, b.moment())
		}
		switch {
		case refused != "" && (err == nil || !strings.Contains(err.Error(), refused)):
			t.Errorf("%q: %v", text, err)
		case refused == "" && err != nil:
			t.Errorf("%q: %v", text, err)
		case refused == "":
			b.put(f)
		}
	}
	correct(seq, "soon", "no time of day")
	correct(seq, "23:59", "still to come")
	correct(seq, "09:01", "")
	if got := b.timers()["lye/sea"].Start.Wall; !got.Equal(time.Date(2026, 3, 2, 9, 1, 0, 0, time.UTC)) {
		t.Errorf("it cools since %s", got)
	}
	b.put(batch.Noted{Stage: "lye/sea", Text: "cloudy"})
	correct(len(b.state.Entries), "clear", "")
	last := b.state.Entries[len(b.state.Entries)-1]
	if words := say.Fact(last, b.plan(), b.state); !strings.Contains(words, "note: clear") || !strings.Contains(words, "note: cloudy") {
		t.Errorf("%q", words)
	}
	correct(1, "x", "no value")
}

package judge_test

import (
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/curing"
	"bench/internal/judge"
	"bench/internal/reply"
	"bench/internal/rest"
	"bench/internal/timer"
)

// on is a day counted from the pour's, as it is named: at noon.
func on(days int) batch.Said {
	return batch.Said{When: time.Date(2026, 3, 2+days, 12, 0, 0, 0, time.UTC), Asked: "so?", Answer: "as ever"}
}

// TestDaysThatCannotBe: nothing of a batch is before what it follows, or on a day to
// come; no answer lets it be (the order of the work, common practice, no source). Poured
// on 2 March, unmoulded and cut on the 3rd, by the sample's practice.
func TestDaysThatCannotBe(t *testing.T) {
	b := lighthouse(t)
	b.WorkTo(t, "cut/loaf 1")
	cut := func(s batch.Said) batch.Fact {
		return batch.BarsCut{Task: "cut/loaf 1", Loaf: 1, Bars: 8, Planned: 8, Said: s}
	}
	for _, c := range []said{
		{"cut before the pour", cut(on(-60)), "2026-01-01 is before the pour on 2026-03-02"},
		{"cut before it was out", cut(on(0)), "2026-03-02 is before the unmoulding on 2026-03-03"},
		{"cut by the minute before it was out", cut(batch.Said{When: b.Now.Wall.Add(-2 * time.Hour)}), "is before the unmoulding"},
		{"cut tomorrow", cut(on(2)), "2026-03-04 has not come yet"},
		{"cut in an hour", cut(batch.Said{When: b.Now.Wall.Add(time.Hour)}), "has not come yet"},
		{"cut today", cut(on(1)), ""},
	} {
		c.on(t, b)
	}
	b.WorkTo(t, "test/alkali")
	for _, c := range []said{
		{"bars weighed before the cut", batch.BarsWeighed{Task: rest.WeightTest, Count: 1, Mass: 100 * g, Said: on(0)}, "is before the cut on 2026-03-03"},
		{"ends before the cut", batch.SetAside{Task: "cut/ends", Piece: batch.EndPiece, Said: on(0)}, "is before the cut"},
		{"a bar in cure before the cut", batch.WeighedIn{Task: curing.BarTask("2"), Bar: "2", Mass: 100 * g, Said: on(0)}, "is before the cut"},
		{"tested before the cut", batch.Tested{Task: "test/alkali", Test: batch.PHTest, Value: 9.6, Passed: true, Said: on(0)}, "is before the cut"},
		{"tested tomorrow", batch.Tested{Task: "test/alkali", Test: batch.PHTest, Value: 9.6, Passed: true, Said: batch.Said{When: b.Now.Wall.AddDate(0, 0, 1)}}, "has not come yet"},
		{"gone before the cut", batch.BarsWent{Where: "the market stall", Said: on(0)}, "is before the cut"},
		{"complained of before the cut", batch.Complained{About: batch.Complaint, Words: "soft", Said: on(0)}, "is before the cut"},
		{"held before the cut", batch.Held{Task: rest.DecideID, Reason: "fog", Said: on(0)}, "is before the cut"},
		{"tested on the day of the cut", batch.Tested{Task: "test/alkali", Test: batch.PHTest, Value: 9.6, Passed: true, Said: on(1)}, ""},
		{"the cut corrected to before the pour", batch.Corrected{Seq: seq(t, b, "cut/loaf 1"), Reason: "misread", With: cut(on(-60))}, "is before the pour"},
		{"the cut corrected to after what was weighed", batch.Corrected{Seq: seq(t, b, "cut/loaf 1"), Reason: "misread", With: cut(on(9))}, "is before the cut on 2026-03-11, so it cannot be; correct that first"},
		{"out of the mould before the pour", batch.Corrected{Seq: seq(t, b, "unmould/loaf 1"), Reason: "misread", With: batch.Ticked{Task: "unmould/loaf 1", When: b.State.Entries[0].At.Wall.Add(time.Minute)}}, "is before the pour"},
	} {
		c.on(t, b)
	}
	b.WorkTo(t, rest.DecideID)
	said{"released before the cut", batch.Released{Task: rest.DecideID, Said: on(0)}, "is before the cut"}.on(t, b)
}

// TestImpossibleIsRefusedAtOnce: what no reason would let be is not asked about, even
// where it looks like a slip besides.
func TestImpossibleIsRefusedAtOnce(t *testing.T) {
	b := lighthouse(t)
	b.WorkTo(t, "cut/loaf 1")
	p := b.Plan()
	f, err := judge.Fact(p, "cut/loaf 1", judge.Answer{How: batch.Typed, Text: "999 on 2026-01-01", Now: b.Now.Wall})
	if err != nil {
		t.Fatal(err)
	}
	if act, word := reply.Propose("26C02A", p, f, b.Now); act != nil || !strings.Contains(word, "2026-01-01 is before the pour") {
		t.Errorf("%+v, %q", act, word)
	}
}

// TestUnmouldedOnAnotherDay: what was ticked a day late can be said to have been on its
// day, and then the cut can be, too.
func TestUnmouldedOnAnotherDay(t *testing.T) {
	b := lighthouse(t)
	b.WorkTo(t, "cut/loaf 1")
	was := b.State.Entries[seq(t, b, "unmould/loaf 1")-1].At
	b.Now = timer.Moment{Wall: b.Now.Wall.AddDate(0, 0, 3)}
	f, err := judge.Correct(b.Plan(), b.State, seq(t, b, "unmould/loaf 1"), was.Wall.AddDate(0, 0, 2).Format("2006-01-02 15:04"), "ticked early")
	if err != nil {
		t.Fatal(err)
	}
	if err := b.Say(f); err != nil {
		t.Fatal(err)
	}
	said{"cut before it", batch.BarsCut{Task: "cut/loaf 1", Loaf: 1, Bars: 8, Planned: 8, Said: on(2)}, "is before the unmoulding on 2026-03-05"}.on(t, b)
}

// TestDayOfWhatIsSaid: words may end with a day, or hold an "on" of their own.
func TestDayOfWhatIsSaid(t *testing.T) {
	c := judge.Choice{Ask: "where", Fact: batch.BarsWent{}}
	for text, want := range map[string]batch.BarsWent{
		"12 to the stall on 2026-05-01":             {Count: 12, Where: "the stall", Said: batch.Said{When: time.Date(2026, 5, 1, 12, 0, 0, 0, time.UTC)}},
		"12 to the stall on the mole":               {Count: 12, Where: "the stall on the mole"},
		"12 to the stall on the mole on 2026-05-01": {Count: 12, Where: "the stall on the mole", Said: batch.Said{When: time.Date(2026, 5, 1, 12, 0, 0, 0, time.UTC)}},
	} {
		if got, err := c.On(text, time.Now().UTC()); err != nil || got != want {
			t.Errorf("%q: %+v, %v", text, got, err)
		}
	}
}

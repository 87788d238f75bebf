package judge_test

import (
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/quantity"
	"bench/internal/rest"
)

// TestBarsAreThoseThatWereCut: no more are weighed than were cut, or it is asked about; and so
// is each slip of an entry that has two. Eight bars are cut of the
// loaf, by the recipe.
func TestBarsAreThoseThatWereCut(t *testing.T) {
	b := lighthouse(t)
	b.WorkTo(t, "bars/loaf 1")
	bar := b.Plan().Poured().Bar
	weighed := func(task string, loaf, n int, each quantity.Mass) batch.Fact {
		return batch.BarsWeighed{Task: task, Loaf: loaf, Count: n, Mass: each * quantity.Mass(n), Reads: g / 10}
	}
	doubts := func(f batch.Fact, want ...string) {
		t.Helper()
		got := judge.DoubtNow(b.Plan(), f, b.Now)
		for _, w := range want {
			if !strings.Contains(got, w) {
				t.Errorf("%+v: %q, want %q", f, got, w)
			}
		}
		if len(want) == 0 && got != "" {
			t.Errorf("%+v: %q", f, got)
		}
	}
	b.Put(weighed("bars/loaf 1", 1, 1, bar))
	doubts(weighed("bars/loaf 1", 1, 7, bar))
	doubts(weighed("bars/loaf 1", 1, 8, bar*3/4), "with these 9 bars are weighed, and 8 were cut")
	doubts(weighed("bars/loaf 1", 1, 8, bar/3), "with these 9 bars", "; and ", "expected about")
	b.WorkTo(t, rest.WeightTest)
	b.Put(weighed(rest.WeightTest, 0, 5, bar*9/10))
	doubts(weighed(rest.WeightTest, 0, 3, bar*9/10))
	doubts(weighed(rest.WeightTest, 0, 30, bar*9/10), "with these 35 bars are weighed, and 8 were cut")
}

// TestNoBarIsHeavierThanItsLoaf: nor than what its scale carries, whatever is said to it.
func TestNoBarIsHeavierThanItsLoaf(t *testing.T) {
	b := lighthouse(t)
	b.WorkTo(t, "cure/bar 1")
	task, _, _ := b.Plan().Task("cure/bar 1")
	answered, loaf := batch.Said{Answer: "fog"}, b.Plan().Poured().Loaves[0]
	in := func(m quantity.Mass) batch.Fact {
		return batch.WeighedIn{Task: "cure/bar 1", Bar: "1", Mass: m, Reads: g / 10, Said: answered}
	}
	for _, c := range []said{
		{"a comma that went missing", in(101124 * g), "is more than the bench scale carries"},
		{"all that the scale carries", in(task.Max), "heavier than the loaf"},
		{"the loaf and a tenth", in(loaf * 11 / 10), "heavier than the loaf"},
		{"the loaf in one", in(loaf), ""},
		{"bars of a loaf each", batch.BarsWeighed{Task: rest.WeightTest, Count: 2, Mass: loaf * 3, Reads: g, Said: answered}, "heavier than the loaf"},
		{"a leftover of more than the batch", batch.SetAside{Task: "clean up/leftover", Mass: 101124 * g, Count: 1, Said: answered}, "more than the whole batch"},
	} {
		c.on(t, b)
	}
	b.Put(batch.WeighedIn{Task: "cure/bar 1", Bar: "1", Mass: 124 * g, Reads: g / 10})
	said{"corrected to what cannot be", batch.Corrected{Seq: len(b.State.Entries), Reason: "misread", With: in(101124 * g)}, "is more than the bench scale carries"}.on(t, b)
}

// TestHowFastABarDries: 2 % at once, 2 % more a day and 15 % at most are let be (common
// practice, no source). 118 g of 124 g are 4.8 % less.
func TestHowFastABarDries(t *testing.T) {
	b := lighthouse(t)
	b.WorkTo(t, "cure/bar 1")
	b.Put(batch.WeighedIn{Task: "cure/bar 1", Bar: "1", Mass: 124 * g, Reads: g / 10})
	for _, c := range []struct {
		wait time.Duration
		mass quantity.Mass
		asks bool
	}{
		{time.Hour, 118 * g, true}, {0, 122 * g, false}, {47 * time.Hour, 118 * g, false}, {0, 114 * g, true}, {28 * 24 * time.Hour, 106 * g, false}, {0, 105 * g, true},
	} {
		b.Wait(c.wait)
		f := batch.WeighedIn{Task: "cure/bar 1", Bar: "1", Mass: c.mass, Reads: g / 10}
		if got := judge.DoubtNow(b.Plan(), f, b.Now); (got != "") != c.asks {
			t.Errorf("%s after %v: %q", c.mass, c.wait, got)
		}
	}
}

// TestBarsThatMayNotGo: more than are left, or bars that no word let go when they went, are
// asked about and kept with the answer. Eight are cut, one is kept back, one is cut open.
func TestBarsThatMayNotGo(t *testing.T) {
	b := lighthouse(t)
	b.WorkTo(t, rest.DecideID)
	went := func(n int, on time.Time) batch.BarsWent {
		return batch.BarsWent{Where: "the market", Count: n, Said: batch.Said{When: on}}
	}
	doubt := func(f batch.BarsWent, want string) {
		t.Helper()
		got := judge.DoubtNow(b.Plan(), f, b.Now)
		if got != want {
			t.Errorf("%+v: %q, want %q", f, got, want)
		}
		err := judge.Allows(b.Plan(), f, b.Now)
		answered, _ := judge.Answered(f, got, "so it was")
		if (err == nil) != (want == "") || judge.Allows(b.Plan(), answered, b.Now) != nil {
			t.Errorf("%+v: %v", f, err)
		}
	}
	noon := func(days int) time.Time {
		y, m, d := b.Now.Wall.AddDate(0, 0, days).Date()
		return time.Date(y, m, d, 12, 0, 0, 0, b.Now.Wall.Location())
	}
	if count := b.Plan().Curing().Count(); count != "8 bars cut, 1 kept back, 1 cut open for a look, 6 left" {
		t.Error(count)
	}
	doubt(went(3, time.Time{}), "the bars were not released")
	b.Put(batch.Held{Task: rest.DecideID, Reason: "pH 11"})
	held := noon(0)
	doubt(went(3, time.Time{}), "the bars were held: pH 11")
	b.Wait(8 * 24 * time.Hour)
	b.Put(batch.Released{Task: rest.DecideID, Reason: "pH 10"})
	doubt(went(6, time.Time{}), "")
	doubt(went(6, noon(0)), "")
	doubt(went(3, held), "the bars were held: pH 11; they were released on "+noon(0).Format(time.DateOnly)+", and these went on "+held.Format(time.DateOnly))
	b.Put(went(5, time.Time{}))
	doubt(went(2, time.Time{}), "2 bars, and of those there should be 1: 8 bars cut, 1 kept back, 1 cut open for a look, 5 gone, 1 left")
	doubt(went(0, time.Time{}), "")
	b.Put(batch.Complained{About: batch.SkinReaction, Words: "itches"})
	doubt(went(1, time.Time{}), "a warning opened after the release, and has no answer yet: skin reaction: itches")
	b.Put(went(3, time.Time{}))
	if count := b.Plan().Curing().Count(); count != "8 bars cut, 1 kept back, 1 cut open for a look, 8 gone, 2 more than there were" {
		t.Error(count)
	}
}

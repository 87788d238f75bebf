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

// TestBarsAreThoseThatWereCut: no more are weighed, and no more leave, than were cut, or it
// is asked about; and so is each slip of an entry that has two. Eight bars are cut of the
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
	b.Put(batch.BarsWent{Count: 6, Where: "the market stall"})
	doubts(batch.BarsWent{Count: 2, Where: "the market stall"})
	doubts(batch.BarsWent{Count: 3, Where: "the market stall"}, "with these 9 bars went, and 8 were cut")
	doubts(batch.BarsWent{Where: "the market stall"})
	kept, ok := judge.Answered(batch.BarsWent{Count: 3, Where: "the market stall"}, "so?", "one from the shelf")
	if err := judge.Allows(b.Plan(), kept, b.Now); !ok || err != nil {
		t.Errorf("with its answer: %v", err)
	}
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

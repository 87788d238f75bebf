package steps_test

import (
	"math"
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/quantity"
	"bench/internal/say"
)

// TestBalanceOfAWeighedLoaf: a loaf that is weighed out of its mould counts by that in the
// balance, less its embeds and its gold; the others count as they were poured. By hand: a
// loaf 100 g lighter than what was poured into it leaves 100 g more in vessels, and the
// half gram of mica on it is no batter.
func TestBalanceOfAWeighedLoaf(t *testing.T) {
	b := resting(t, harbour())
	b.wait(25 * time.Hour)
	before := b.plan()
	poured := before.Poured().Loaves[1]
	b.typed(t, "unmould/loaf 2", (poured - 100*g).At(g/10))
	is := b.plan()
	if task := b.task(t, "unmould/loaf 2"); !task.Done || b.task(t, "unmould/loaf 1").Done {
		t.Errorf("%+v", task)
	}
	if less := (before.Balance.Loaves - is.Balance.Loaves).Grams(); math.Abs(less-100.5) > 0.1 {
		t.Errorf("%.1f g less in the loaves", less)
	}
	if more := is.Balance.Rest - before.Balance.Rest; more != before.Balance.Loaves-is.Balance.Loaves || is.Balance.Weighed != 1 {
		t.Errorf("%v more in vessels: %+v", more, is.Balance)
	}
	if words := is.Balance.String(); !strings.Contains(words, "(1 loaf weighed out of the mould)") || strings.Contains(before.Balance.String(), "out of the mould") {
		t.Error(words)
	}
	if loaf := is.Poured().Loaves[1]; (loaf-(poured-100*g)).Abs() > 100 || is.Poured().Bars[1] >= before.Poured().Bars[1] || is.Poured().Bars[0] != before.Poured().Bars[0] {
		t.Errorf("it is %v, and its bars %v", loaf, is.Poured().Bars)
	}
	last := b.state.Entries[len(b.state.Entries)-1]
	if kept := stored(t, last).Fact; kept != last.Fact || !strings.HasSuffix(say.Fact(last, is, b.state), "Unmould loaf 2, weighs "+(poured-100*g).At(g/10)+" g") {
		t.Errorf("%+v: %s", kept, say.Fact(last, is, b.state))
	}
	b.put(batch.Withdrawn{Seq: last.Seq, Reason: "another loaf"})
	if again := b.plan().Balance; again != before.Balance {
		t.Errorf("taken back: %+v", again)
	}
}

// TestEndsOfAnUnlikelyWeight: of the harbour's loaf nine bars leave a tenth; half of that or twice is asked about, and so are bars that leave no ends.
func TestEndsOfAnUnlikelyWeight(t *testing.T) {
	b := resting(t, harbour())
	b.wait(25 * time.Hour)
	b.workTo(t, "bars/loaf 1")
	all := quantity.Mass(0)
	for _, loaf := range b.plan().Poured().Loaves {
		all += loaf
	}
	for percent, asked := range map[quantity.Mass]bool{100: false, 60: false, 190: false, 40: true, 210: true} {
		f := batch.SetAside{Task: "cut/ends", Piece: batch.EndPiece, Count: 1, Mass: all / 10 / 100 * percent}
		if doubt := judge.Doubt(b.plan(), f); (doubt != "") != asked {
			t.Errorf("%d %%: %q", percent, doubt)
		}
	}
	loaf := b.plan().Poured().Loaves[0]
	for percent, asked := range map[quantity.Mass]bool{88: false, 91: false, 93: true} {
		f := batch.BarsWeighed{Task: "bars/loaf 1", Loaf: 1, Count: 9, Mass: loaf / 100 * percent, Reads: g}
		if doubt := judge.DoubtNow(b.plan(), f, b.moment()); strings.Contains(doubt, "about ") != asked {
			t.Errorf("%d %%: %q", percent, doubt)
		}
	}
}

// TestLoafOfAnUnlikelyWeight is asked about; one of no weight, or a tick elsewhere that
// brings a weight, is refused; and space alone unmoulds it as before.
func TestLoafOfAnUnlikelyWeight(t *testing.T) {
	b := resting(t, harbour())
	b.wait(25 * time.Hour)
	poured := b.plan().Poured().Loaves[0]
	// A day after the pour: 5 % either way, and 4 % that may have dried away.
	for percent, asked := range map[quantity.Mass]bool{100: false, 104: false, 92: false, 106: true, 90: true, 81: true} {
		f := batch.Ticked{Task: "unmould/loaf 1", Mass: poured / 100 * percent}
		if doubt := judge.DoubtNow(b.plan(), f, b.moment()); (doubt != "") != asked {
			t.Errorf("%v of %v: %q", f.Mass, poured, doubt)
		}
	}
	for _, text := range []string{"0", "-3", "many"} {
		if f, err := judge.Fact(b.plan(), "unmould/loaf 1", judge.Answer{How: batch.Typed, Text: text}); err == nil {
			t.Errorf("%q gives %+v", text, f)
		}
	}
	b.refuses(t, batch.Ticked{Task: "unmould/loaf 1", Mass: -g}, "only a loaf")
	b.refuses(t, batch.Ticked{Task: "cut/side", Mass: g}, "only a loaf")
	b.asked(t, "unmould/loaf 1")
	if b.plan().Balance.Weighed != 0 || !b.task(t, "unmould/loaf 1").Done {
		t.Error("it was not weighed")
	}
}

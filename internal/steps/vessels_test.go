package steps_test

import (
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/potcheck"
	"bench/internal/quantity"
	"bench/internal/reply"
	"bench/internal/resume"
	"bench/internal/work"
)

// TestWeighThePot: what is missing, in twice or in without a fact is named.
func TestWeighThePot(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/castor") // shea 191.4, coconut 382.8 and olive 574.1 are in the pot of 640 g.
	const all = 640_000 + 191_400 + 382_800 + 574_100
	for name, c := range map[string]struct {
		vessel string
		gross  quantity.Mass
		want   string
	}{
		"as it should be": {"pot 1", all, "as it should be"},
		"lost tick":       {"pot 1", all + 127_600, "127.6 g more than the facts say (it is 1915.9 g and should be 1788.3): Castor oil is in already"},
		"not in":          {"pot 1", all - 382_800, "382.8 g short (it is 1405.5 g and should be 1788.3): Coconut oil is not in"},
		"twice":           {"pot 1", all + 574_100, "Olive oil is in twice"},
		"two at once":     {"pot 1", all - 191_400 + 127_600, "ambiguous: Shea butter is not in and Castor oil is in already"},
		"unexplained":     {"pot 1", all + 50_000, "nothing that belongs here explains it"},
		"doubled lye":     {"lye jug 1", 212_000 + 363_600 + 2*179_100, "sodium hydroxide is in twice"},
	} {
		t.Run(name, func(t *testing.T) {
			f, err := b.plan().PotCheck(c.vessel, c.gross)
			if err != nil || !strings.Contains(f.Words, c.want) {
				t.Errorf("%q, %v; want %q", f.Words, err, c.want)
			}
			if err := judge.Allows(b.plan(), f.Fact, b.moment()); err != nil {
				t.Error(err)
			}
		})
	}
	for _, gross := range []quantity.Mass{-1, 0, 1_000_000_000_000} {
		if _, err := b.plan().PotCheck("pot 1", gross); err == nil {
			t.Errorf("%v is taken for a weight", gross)
		}
	}
	if _, err := b.plan().PotCheck("bucket", 1_000); err == nil {
		t.Error("there is no bucket")
	}
}

// TestWeighThePotAfterLye: once they have met, the lye solution is in the pot
// and the jug is no longer looked into.
func TestWeighThePotAfterLye(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/trace/emulsion")
	p := b.plan()
	var pot potcheck.Content
	for _, v := range p.Vessels() {
		if v.Vessel == "lye jug 1" {
			t.Error("the empty jug is looked into")
		}
		if v.Vessel == "pot 1" {
			pot = v
		}
	}
	if f, err := p.PotCheck("pot 1", pot.Expected); err != nil || !strings.HasPrefix(f.Words, "as it should be") {
		t.Errorf("%q, %v", f.Words, err)
	}
	f, _ := p.PotCheck("pot 1", pot.Expected-542_700)
	if strings.Contains(f.Words, "lye solution is not in") || !strings.Contains(f.Words, "Weigh it once more") {
		t.Errorf("by one look: %q", f.Words)
	}
	b.put(f.Fact)
	if f, _ := b.plan().PotCheck("pot 1", pot.Expected-600_000); strings.Contains(f.Words, "lye solution is not in") {
		t.Errorf("by two looks that differ: %q", f.Words)
	}
	if f, _ := b.plan().PotCheck("pot 1", pot.Expected-542_700); !strings.Contains(f.Words, "the lye solution is not in. Lye goes in only once") {
		t.Errorf("by two looks: %q", f.Words)
	}
	stale := batch.PotWeighed{Vessel: "pot 1", Gross: pot.Expected, Finding: "all well"}
	if judge.Allows(p, stale, b.moment()) == nil {
		t.Error("words that nobody worked out are taken")
	}
}

// TestJugAfterDissolving: steam is told from solution that is missing, and a
// weighing that was forgotten can be left out with its reason.
func TestJugAfterDissolving(t *testing.T) {
	for typed, want := range map[string]string{
		"754.7": "As heavy as what went in", // 212.0 + 363.6 + 179.1
		"749.0": "5.7 g lighter than what went in: steam",
		"720.0": "34.7 g lighter than what went in: steam can take that",
		"700.0": "54.7 g lighter than its facts",
		"900.0": "145.3 g heavier than its facts",
	} {
		b := begin(harbour())
		b.workTo(t, "sea/lye jug/dissolved")
		f, err := judge.Fact(b.plan(), "sea/lye jug/dissolved", judge.Answer{How: batch.Typed, Text: typed})
		if err != nil {
			t.Fatal(err)
		}
		b.put(f)
		if got := b.task(t, "sea/lye jug/dissolved").Hint; !strings.Contains(got, want) {
			t.Errorf("%s: %q, want %q", typed, got, want)
		}
	}
	b := begin(harbour())
	b.workTo(t, "sea/lye jug/dissolved")
	skip := batch.Skipped{Task: "sea/lye jug/dissolved", Reason: "scale in use"}
	if err := judge.Allows(b.plan(), skip, b.moment()); err != nil {
		t.Error(err)
	}
}

// TestPotAsTheJugWeighed: the lye jug is 5.5 g lighter than what went into it, and so
// is the pot that it was poured into; a jug that nobody weighed is taken to be as
// full as its facts, and the task says so.
func TestPotAsTheJugWeighed(t *testing.T) {
	for name, c := range map[string]struct {
		lighter quantity.Mass
		said    string
	}{
		"steam left it":    {5_500, "with the 537.2 g of lye solution that the jug held"}, // 363.6 + 179.1 − 5.5
		"as its facts say": {0, "with the 542.7 g of lye solution that the jug held"},
		"not weighed":      {-1, "was not weighed since: expected with all 542.7 g"},
	} {
		t.Run(name, func(t *testing.T) {
			b := begin(harbour())
			b.workTo(t, "sea/lye jug")
			full := b.task(t, "sea/sea/gross").Target
			if c.lighter < 0 {
				b.put(batch.Withdrawn{Seq: seqOf(t, b, "sea/lye jug/dissolved"), Reason: "not weighed"})
				b.put(batch.Skipped{Task: "sea/lye jug/dissolved", Reason: "no time"})
				b.put(batch.Skipped{Task: "sea/lye jug", Reason: "no time"})
			} else {
				b.typed(t, "sea/lye jug", (b.task(t, "sea/lye jug").Target - c.lighter).At(g/10))
			}
			b.workTo(t, "sea/sea/gross")
			task := b.task(t, "sea/sea/gross")
			if got := full - task.Target; abs(got-max(0, c.lighter)) > 100 {
				t.Errorf("the pot is expected %v lighter", got)
			}
			if !strings.Contains(task.Hint, c.said) {
				t.Errorf("%q does not say %q", task.Hint, c.said)
			}
		})
	}
}

// seqOf numbers the last fact about a task.
func seqOf(t *testing.T, b *bencher, task string) int {
	t.Helper()
	for i := len(b.state.Entries); i > 0; i-- {
		if batch.Task(b.state.Entries[i-1].Fact) == task {
			return i
		}
	}
	t.Fatalf("nothing was said of %s", task)
	return 0
}

// TestUnsaid: what alone explains a vessel's weight is told with its weight by the scale,
// until more is said about the vessel.
func TestUnsaid(t *testing.T) {
	const all = 640_000 + 191_400 + 382_800 + 574_100
	look := func(b *bencher, gross quantity.Mass) {
		f, err := b.plan().PotCheck("pot 1", gross)
		if err != nil {
			t.Fatal(err)
		}
		b.put(f.Fact)
	}
	for gross, want := range map[quantity.Mass]quantity.Mass{all + 127_600: 127_600, all + 128_000: 128_000, all: 0, all + 50_000: 0, all - 382_800: 0, all - 191_400 + 127_600: 0} {
		b := begin(harbour())
		b.workTo(t, "sea/castor")
		look(b, gross)
		u, ok := resume.InAlready(b.plan())
		if ok != (want > 0) || u.Mass != want || ok && (u.Task.ID != "sea/castor" || u.Gross != gross) {
			t.Errorf("%s: %+v, %v; want %s", gross, u, ok, want)
		}
		b.put(batch.Noted{Text: "fog"})
		if _, still := resume.InAlready(b.plan()); still != ok {
			t.Errorf("%s: a note makes it %v", gross, still)
		}
		if ok {
			b.put(batch.Weighed{Task: "sea/castor", Mass: 100_000, How: batch.Typed, More: true})
			if u, ok := resume.InAlready(b.plan()); ok {
				t.Errorf("%s: said, and still %+v", gross, u)
			}
		}
	}
}

// TestPotAsItWasKept: what a pot was kept with, within its tolerance of what was asked, is
// what the next look is held against, and a portion that is out without a fact is named.
func TestPotAsItWasKept(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/sea/gross")
	whole := b.task(t, "sea/sea/gross")
	kept := whole.Target - 20*quantity.Gram // Its tolerance is 2 % of some 1.9 kg.
	b.typed(t, "sea/sea/gross", kept.At(whole.Reads))
	if off := b.task(t, "sea/sea/gross").Off(); off != 0 {
		t.Fatalf("it is off by %s", off)
	}
	var last, next work.Task
	for i := range 2 {
		next = b.task(t, work.OfLoaf("sea/sea", i))
		if i == 0 {
			b.asked(t, next.ID)
			last = b.task(t, next.ID)
		}
	}
	reads := kept - last.Mass
	for gross, want := range map[quantity.Mass]string{
		reads:                    "as it should be",
		reads - 10*quantity.Gram: "10.0 g short",
		reads - next.Remaining(): "the portion for loaf 2 is out already",
		reads + last.Mass:        "the portion for loaf 1 did not come out",
	} {
		f, err := b.plan().PotCheck("pot 1", gross)
		if err != nil || !strings.Contains(f.Words, want) || strings.Contains(f.Words, "not in") {
			t.Errorf("%s: %q, %v; want %q", gross, f.Words, err, want)
		}
	}
	f, _ := b.plan().PotCheck("pot 1", reads-next.Remaining())
	b.put(f.Fact)
	u, act := reply.KeepInAlready("x", b.plan(), b.moment())
	if k, ok := act.(reply.Keep); !ok || u.Task.ID != next.ID {
		t.Errorf("%+v, %+v", u, act)
	} else if w := k.Fact.(batch.Weighed); w.Mass != next.Remaining() {
		t.Errorf("kept as %s g, poured %s", w.Mass, next.Remaining())
	}
}

// TestPotOnceSomeWasPouredBack: of a pot of 2463.7 g 621.3 g went out, 20 g too much, and
// 19 g of it back; what was only decided is in no vessel yet.
func TestPotOnceSomeWasPouredBack(t *testing.T) {
	b := splitSea(t)
	b.poursOff(t, loaf1, 20*g)
	b.decide(t, loaf1, batch.PourBack)
	want := func(gross quantity.Mass) {
		t.Helper()
		if f, err := b.plan().PotCheck("pot 1", gross); err != nil || f.Fact.Expected != gross {
			t.Errorf("%s, %v; want %s", f.Fact.Expected, err, gross)
		}
	}
	want(1_842_400)
	b.typed(t, loaf1+"/evened", "19")
	want(1_861_400)
}

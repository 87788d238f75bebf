package steps_test

import (
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/recipe"
	"bench/internal/rest"
	"bench/internal/say"
	"bench/internal/timer"
)

const day = 24 * time.Hour

// resting gives the harbour batch after its clean-up.
func resting(t *testing.T, c recipe.Control) *bencher {
	t.Helper()
	b := begin(c)
	if err := b.work(never); err != nil {
		t.Fatal(err)
	}
	return b
}

// cutAll takes it to the cut: three loaves, all bars as planned.
func cutAll(t *testing.T, c recipe.Control) *bencher {
	t.Helper()
	b := resting(t, c)
	b.wait(25 * time.Hour)
	b.workTo(t, "cure/bar 1")
	return b
}

// said gives what is typed for a task, as the plan takes it.
func (b *bencher) said(t *testing.T, id, text string) batch.Fact {
	t.Helper()
	f, err := judge.Fact(b.plan(), id, judge.Answer{How: batch.Typed, Text: text, Now: b.now})
	if err != nil {
		t.Fatalf("%s, %q: %v", id, text, err)
	}
	return f
}

// TestGelLooks come at one and three hours, each with its remedies; one that was
// missed is not asked for the next day.
func TestGelLooks(t *testing.T) {
	b := resting(t, harbour())
	if id, ok := b.plan().Next(b.moment()); ok {
		t.Fatalf("before the hour is over: %s", id)
	}
	b.wait(time.Hour)
	id, _ := b.plan().Next(b.moment())
	choices := judge.Choices(b.plan(), id, "")
	if id != "gel/1 h" || len(choices) != 6 {
		t.Fatalf("%s with %d answers", id, len(choices))
	}
	for _, c := range choices {
		if len(c.Why) < 10 {
			t.Errorf("%s has no remedy: %q", c.Title, c.Why)
		}
	}
	hot, err := judge.Warmed(choices[5].Fact, "81")
	if err != nil || hot.(batch.GelLooked).Temperature.Celsius() != 81 || hot.(batch.GelLooked).Look != batch.Rising {
		t.Fatalf("%+v, %v", hot, err)
	}
	b.allows(t, hot)
	b.refuses(t, hot, "done already")
	b.wait(23 * time.Hour)
	if id, _ := b.plan().Next(b.moment()); id != "unmould/loaf 1" {
		t.Errorf("next is %s", id)
	}
	b.allows(t, batch.Ticked{Task: "unmould/loaf 1"})
	if late := b.task(t, "gel/3 h"); !late.Done || late.Skipped == "" {
		t.Errorf("a look that nobody took: %+v", late)
	}
}

// TestTooSoft puts the unmoulding off, and the cut.
func TestTooSoft(t *testing.T) {
	b := resting(t, harbour())
	b.wait(25 * time.Hour)
	soft := judge.Choices(b.plan(), "unmould/loaf 2", "")[0]
	if !strings.Contains(soft.Title, "look again in 12 h") {
		t.Fatal(soft.Title)
	}
	b.allows(t, soft.Fact)
	b.refuses(t, batch.Ticked{Task: "unmould/loaf 2"}, "put off for 11 h")
	b.wait(12 * time.Hour)
	for _, loaf := range []string{"1", "2", "3"} {
		b.allows(t, batch.Ticked{Task: "unmould/loaf " + loaf})
	}
	b.allows(t, batch.Ticked{Task: "cut/side"})
	b.allows(t, judge.Choices(b.plan(), "cut/loaf 1", "")[0].Fact)
	b.wait(time.Hour)
	if got := due(b, rest.CutDue); got != timer.Running {
		t.Errorf("the cut is %v", got)
	}
}

func due(b *bencher, id string) timer.State {
	for _, t := range b.plan().Timers {
		if t.ID == id {
			return t.State(b.moment())
		}
	}
	return -1
}

// TestGlovesAreSaid wherever fresh soap is touched.
func TestGlovesAreSaid(t *testing.T) {
	b := begin(harbour())
	for _, id := range []string{"unmould/loaf 1", "cut/side", "test/alkali"} {
		if task := b.task(t, id); !strings.Contains(task.Hint, "Gloves") {
			t.Errorf("%s: %q", id, task.Hint)
		}
	}
}

// TestShortLoafIsExplained: fewer bars than planned ask what became of the rest,
// and more than fit are asked about.
func TestShortLoafIsExplained(t *testing.T) {
	b := resting(t, harbour())
	b.wait(25 * time.Hour)
	b.workTo(t, "cut/loaf 1")
	planned := b.task(t, "cut/loaf 1").Count
	if planned != b.state.Control.Loaf().Bars() || planned < 2 {
		t.Fatalf("planned %d", planned)
	}
	short := b.said(t, "cut/loaf 1", "2")
	b.refuses(t, short, "what became of the rest?")
	answered, ok := judge.Answered(short, judge.Doubt(b.plan(), short), "it broke")
	if cut := answered.(batch.BarsCut); !ok || cut.Why != "it broke" {
		t.Fatalf("%+v", answered)
	}
	b.allows(t, answered)
	many := b.said(t, "cut/loaf 2", "99")
	b.refuses(t, many, "fit between the trims")
	if err := b.say("cut/loaf 2", judge.Answer{How: batch.AtTarget}); err != nil {
		t.Error(err)
	}
	c := b.plan().Curing()
	if c.Bars != 2+planned || c.Planned != 2*planned || len(c.Short) != 1 || !strings.Contains(c.Short[0], "it broke") || !c.Cut.IsZero() {
		t.Errorf("%+v", c)
	}
}

// TestAskedAboutAndKept: a weight that rises, or falls by half. Neither is refused once it
// is answered, and the answer stays; what cannot be is.
func TestAskedAboutAndKept(t *testing.T) {
	b := cutAll(t, harbour())
	first := b.said(t, "cure/bar 1", b.task(t, "cure/bar 1").Target.At(g)).(batch.WeighedIn)
	b.allows(t, first)
	b.wait(7 * day)
	heavier := first
	heavier.Mass += 5 * g
	for name, c := range map[string]struct {
		f    batch.Fact
		want string
	}{
		"rises":       {heavier, "a bar in cure loses weight"},
		"another bar": {batch.WeighedIn{Task: first.Task, Bar: "1", Mass: first.Mass / 2, Reads: first.Reads}, "is it the same bar?"},
	} {
		if got := judge.Doubt(b.plan(), c.f); !strings.Contains(got, c.want) {
			t.Errorf("%s: %q", name, got)
		}
		b.refuses(t, c.f, c.want)
		answered, ok := judge.Answered(c.f, "so?", "the scale drifts")
		if !ok || judge.Allows(b.plan(), answered, b.moment()) != nil {
			t.Errorf("%s: with its answer it is refused: %v", name, judge.Allows(b.plan(), answered, b.moment()))
		}
		e := batch.Entry{Seq: 1, At: b.moment(), Fact: answered}
		if words := say.Fact(e, b.plan(), b.state); !strings.Contains(words, "asked: so?; answer: the scale drifts") {
			t.Errorf("%s is told as %q", name, words)
		}
	}
	b.refuses(t, b.said(t, "cure/bar 1", "90 on 2026-12-01"), "has not come yet")

	loaf := batch.BarsWeighed{Task: "test/weight", Count: 1, Mass: 5000 * g, Reads: g, Said: batch.Said{Answer: "a stone in it"}}
	b.refuses(t, loaf, "is more than the")
}

// TestOneLoafIsCutWhileAnotherIsTooSoft: it is cut and its bars are weighed; the pieces
// that are weighed together wait for all loaves, and so does the cure.
func TestOneLoafIsCutWhileAnotherIsTooSoft(t *testing.T) {
	b := resting(t, harbour())
	b.wait(25 * time.Hour)
	b.refuses(t, batch.Ticked{Task: "cut/side"}, "waits for")
	b.allows(t, batch.Ticked{Task: "unmould/loaf 1"})
	b.allows(t, judge.Choices(b.plan(), "unmould/loaf 3", "")[0].Fact)
	b.allows(t, judge.Choices(b.plan(), "unmould/loaf 2", "")[0].Fact)
	if _, id := b.next(t); id != "cut/side" {
		t.Errorf("next is %s", id)
	}
	b.refuses(t, b.said(t, "cut/loaf 1", "9"), "waits for: Lay the loaf on its side")
	b.allows(t, batch.Ticked{Task: "cut/side"})
	b.refuses(t, b.said(t, "cut/loaf 2", "9"), "waits for: Unmould loaf 2")
	cut := b.said(t, "cut/loaf 1", "9")
	b.allows(t, cut)
	number := len(b.state.Entries)
	if _, id := b.next(t); id != "bars/loaf 1" {
		t.Errorf("next is %s", id)
	}
	b.refuses(t, batch.SetAside{Task: "cut/ends", Piece: batch.EndPiece}, "waits for: Cut loaf 2")
	b.refuses(t, b.said(t, "bars/loaf 2", "120"), "waits for: Cut loaf 2")
	b.refuses(t, b.said(t, "cure/bar 1", "120"), "waits for cut")
	if err := judge.Allows(b.plan(), batch.Withdrawn{Seq: number - 4, Reason: "fog"}, b.moment()); err == nil {
		t.Error("the unmoulding is taken back from under the cut")
	}
	b.wait(12 * time.Hour)
	b.allows(t, batch.Ticked{Task: "unmould/loaf 2"})
	b.allows(t, b.said(t, "cut/loaf 2", "9"))
}

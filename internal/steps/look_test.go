package steps_test

import (
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/quantity"
	"bench/internal/reply"
	"bench/internal/steps"
	"bench/internal/work"
)

// weighs keeps what a vessel weighs.
func (b *bencher) weighs(t *testing.T, vessel string, gross quantity.Mass) {
	t.Helper()
	f, err := b.plan().PotCheck(vessel, gross)
	if err == nil {
		err = judge.Allows(b.plan(), f.Fact, b.moment())
	}
	if err != nil {
		t.Fatal(err)
	}
	b.put(f.Fact)
}

// answer takes the answer of a kind to the look that is off.
func (b *bencher) answer(t *testing.T, kind steps.LookKind, text string) {
	t.Helper()
	d := b.plan().Deviations[0]
	for _, w := range b.plan().Ways(d) {
		if w.Look == nil || w.Look.Kind != kind {
			continue
		}
		act, word := reply.AnswerLook("x", b.plan(), *w.Look, b.moment())
		if q, asks := act.(reply.Question); asks {
			act, word = q.Make(text, b.moment())
		}
		if keep, ok := act.(reply.Keep); ok {
			b.put(keep.Fact)
			return
		}
		t.Fatalf("%s: %s", kind, word)
	}
	t.Fatalf("%s is not offered", kind)
}

// TestALookCounts: the pot of 640 g holds 191.4 + 382.8 + 574.1 + 127.6 g of oils by the
// facts, and weighs less by the olive oil, or more by the coconut oil. The lye waits, at
// the gate and after it, until that is answered.
func TestALookCounts(t *testing.T) {
	const all = 640_000 + 191_400 + 382_800 + 574_100 + 127_600 + 5_100 // Mica, 0.4 % of the oils.
	for _, at := range []string{"sea/meet", "sea/combine"} {
		for name, c := range map[string]struct {
			gross quantity.Mass
			finds string
			do    func(b *bencher)
			after string // after is what stands in the deviations then, or "".
		}{
			"not in": {all - 574_100, "Olive oil is not in", func(b *bencher) { b.answer(t, steps.CountAs, "") }, "Olive oil 574.1 g under"},
			"twice":  {all + 382_800, "Coconut oil is in twice", func(b *bencher) { b.answer(t, steps.CountAs, "") }, "Coconut oil 382.8 g over"},
			"again":  {all - 574_100, "Olive oil is not in", func(b *bencher) { b.weighs(t, "pot 1", all) }, ""},
			"reason": {all - 574_100, "Olive oil is not in", func(b *bencher) { b.answer(t, steps.SaySo, "read from the other scale") }, ""},
			"still":  {all - 574_100, "Olive oil is not in", func(b *bencher) { b.weighs(t, "pot 1", all-574_100) }, "Olive oil is not in"},
			"put in": {all - 574_100, "Olive oil is not in", func(b *bencher) {
				b.answer(t, steps.CountAs, "")
				b.decide(t, "sea/olive", batch.AddOil)
			}, ""},
		} {
			b := begin(harbour())
			b.workTo(t, at)
			b.weighs(t, "pot 1", c.gross)
			p := b.plan()
			if len(p.Deviations) != 1 || !strings.Contains(p.Deviations[0].Words, c.finds) {
				t.Errorf("%s at %s: %+v", name, at, p.Deviations)
				continue
			}
			if ways := p.Ways(p.Deviations[0]); ways[0].Look.Kind != steps.WeighAgain || !ways[0].Default {
				t.Errorf("%s: to weigh it again is not the usual answer: %+v", name, ways[0])
			}
			task := b.task(t, at)
			if err := b.say(at, asAsked(task)); err == nil || !strings.Contains(err.Error(), "The lye waits") {
				t.Errorf("%s at %s: the lye does not wait: %v", name, at, err)
			}
			c.do(b)
			words := ""
			for _, d := range b.plan().Deviations {
				words += d.Words
			}
			if c.after == "" && words != "" || !strings.Contains(words, c.after) {
				t.Errorf("%s at %s: then %q, want %q", name, at, words, c.after)
			}
			switch err := b.say(at, asAsked(task)); {
			case name == "put in": // The oil is a task of its own, before the lye.
				if id, _ := b.plan().Next(b.moment()); err == nil && at == "sea/combine" || !strings.HasPrefix(id, "sea/olive") {
					t.Errorf("%s at %s: %v, next %s", name, at, err, id)
				}
			case c.after == "" && err != nil:
				t.Errorf("%s at %s: %v", name, at, err)
			case name == "not in" && at == "sea/combine" && (err == nil || b.plan().Batters[0].Superfat.Percent > -50):
				t.Errorf("without its olive oil the lye goes in (%v) at a superfat of %.1f %%", err, b.plan().Batters[0].Superfat.Percent)
			}
		}
	}
}

// TestALookIsHeldToItsTime: weighings that follow change nothing about what was found, a
// correction of what was in by then does, and so does taking the look back.
func TestALookIsHeldToItsTime(t *testing.T) {
	const all = 640_000 + 191_400 + 382_800 + 574_100
	b := begin(harbour())
	b.workTo(t, "sea/castor")
	b.weighs(t, "pot 1", all-30_000)
	seq := len(b.state.Entries)
	b.asked(t, "sea/castor")
	if d := b.plan().Deviations; len(d) != 1 || d[0].Look != seq || math.Abs(d[0].Off.Grams()+30) > 1e-6 {
		t.Fatalf("%+v", d)
	}
	corrected := b.state.Weighings("sea/olive")[0]
	corrected.Fact.Mass -= 30_000
	mended := b.state.Apply(batch.Entry{Seq: seq + 2, Fact: batch.Corrected{Seq: corrected.Seq, Reason: "misread", With: corrected.Fact}})
	if d := steps.Of(mended).Deviations; slices.ContainsFunc(d, func(d steps.Deviation) bool { return d.Look > 0 }) {
		t.Errorf("the facts were put right, and still: %+v", d)
	}
	gone := b.state.Apply(batch.Entry{Seq: seq + 2, Fact: batch.Withdrawn{Seq: seq, Reason: "another vessel"}})
	if d := steps.Of(gone).Deviations; len(d) != 0 {
		t.Errorf("the look was taken back, and still: %+v", d)
	}
	if err := judge.Allows(b.plan(), batch.PotAnswered{Look: seq, Answer: " "}, b.moment()); err == nil {
		t.Error("an answer without words is taken")
	}
	if err := judge.Allows(b.plan(), batch.PotAnswered{Look: 3, Answer: "so"}, b.moment()); err == nil {
		t.Error("an answer to no look is taken")
	}
}

// TestALookKeepsWhatIsIn: what is in without a fact is kept from the look, or typed as
// the look says, and answers it; weighed anew it would be in twice.
func TestALookKeepsWhatIsIn(t *testing.T) {
	const all = 640_000 + 191_400 + 382_800 + 574_100
	for name, keep := range map[string]func(b *bencher){
		"kept": func(b *bencher) { b.answer(t, steps.KeepIt, "") },
		"enter": func(b *bencher) {
			_, act := reply.KeepInAlready("x", b.plan(), b.moment())
			b.put(act.(reply.Keep).Fact)
		},
		"typed": func(b *bencher) {
			act, _, word := reply.To("x", b.plan(), b.task(t, "sea/castor"), judge.Answer{How: batch.Typed, Text: "127.6"}, nil, b.moment())
			if act == nil {
				t.Fatal(word)
			}
			b.put(act.(reply.Keep).Fact)
		},
		"weighed": func(b *bencher) { b.typed(t, "sea/castor", "127.5") },
	} {
		b := begin(harbour())
		b.workTo(t, "sea/castor")
		b.weighs(t, "pot 1", all+127_600)
		if len(b.plan().Deviations) != 1 {
			t.Fatalf("%s: %+v", name, b.plan().Deviations)
		}
		keep(b)
		if m, _ := b.state.Mass("sea/castor"); name != "weighed" && m != 127_600 || len(b.plan().Deviations) == 0 != (name != "weighed") {
			t.Errorf("%s: %s, %+v", name, m, b.plan().Deviations)
		}
	}
}

// TestALookIntoLye: by the weight of a jug nobody corrects alkali, and none of it goes in
// again; water that a lye solution lacks is not poured into it.
func TestALookIntoLye(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/meet")
	for _, off := range []quantity.Mass{-179_100, -363_600, 179_100} {
		was := b.state
		b.weighs(t, "lye jug 1", 212_000+363_600+179_100+off)
		d := b.plan().Deviations
		if len(d) != 1 || d[0].Batter != "sea" {
			t.Fatalf("%s: %+v", off, d)
		}
		for _, w := range b.plan().Ways(d[0]) {
			if w.Keeps() != nil {
				t.Errorf("%s: %s", off, w.Title)
			}
		}
		b.state, b.planned = was, nil
	}
}

// TestALookTakesAPortionBack: a pot that weighs as if a portion of 601.3 g had not been
// poured out of it: that is taken back, and the portion asked for again.
func TestALookTakesAPortionBack(t *testing.T) {
	b := splitSea(t)
	b.poursOff(t, loaf1, 0)
	b.weighs(t, "pot 1", 2_463_700)
	if d := b.plan().Deviations; len(d) != 1 || !strings.Contains(d[0].Words, "the portion for loaf 1 did not come out") {
		t.Fatalf("%+v", d)
	}
	b.answer(t, steps.TakeBack, "")
	if task := b.task(t, loaf1); task.Done || !task.Open || task.Target.RoundTo(g/10) != 601_300 || len(b.plan().Deviations) > 0 {
		t.Errorf("%+v, %+v", task, b.plan().Deviations)
	}
	b.poursOff(t, loaf1, 0)
	if task := b.task(t, loaf1); !task.Done {
		t.Errorf("%+v", task)
	}
}

// TestALookHoldsTheBars: a pot that was 60 g short when its batter was mixed, and that
// nobody has explained, keeps the bars from being released without a reason; it is not a
// warning to be read besides. A reason, or the same pot weighed again as it should be, ends that.
func TestALookHoldsTheBars(t *testing.T) {
	short := func(t *testing.T) (*bencher, quantity.Mass) {
		t.Helper()
		b := begin(harbour())
		b.workTo(t, "sea/trace/light")
		all := quantity.Mass(0)
		for _, v := range b.plan().Vessels() {
			if v.Vessel == "pot 1" {
				all = v.Expected
			}
		}
		b.weighs(t, "pot 1", all-60*quantity.Gram)
		return b, all
	}
	b, all := short(t)
	open := func() []string { return b.plan().Open() }
	if list := open(); len(list) != 1 || !strings.Contains(list[0], "pot 1: 60.0 g short") || !strings.Contains(list[0], "before a bar is released") {
		t.Fatalf("open: %q", list)
	}
	if n := b.plan().Undecided(); n != 1 {
		t.Errorf("%d things are to be decided: %+v", n, b.plan().Unread)
	}
	b.weighs(t, "pot 1", all)
	if list := open(); len(list) != 0 {
		t.Errorf("weighed again: %q", list)
	}
	b, _ = short(t)
	b.answer(t, steps.SaySo, "read from the other scale")
	if list := open(); len(list) != 0 {
		t.Errorf("answered: %q", list)
	}

	b, _ = short(t)
	if err := b.work(never); err != nil {
		t.Fatal(err)
	}
	b.wait(25 * time.Hour)
	b.workTo(t, "cure/bar 1")
	b.allows(t, b.said(t, "cure/bar 1", b.task(t, "cure/bar 1").Target.At(g)))
	b.wait(43 * day)
	b.allows(t, batch.Ticked{Task: "cure/complete"})
	b.allows(t, batch.Tested{Task: "test/alkali", Test: batch.PHTest, Value: 9.8, Passed: true})
	if err := b.work(func(task work.Task) bool { return task.ID == "release/decide" }); err != nil {
		t.Fatal(err)
	}
	free := judge.Choices(b.plan(), "release/decide", "the maker")[0]
	b.refuses(t, free.Fact, "not without a reason: pot 1: 60.0 g short")
	f, err := free.With("every bar was tested")
	if err != nil {
		t.Fatal(err)
	}
	b.allows(t, f)
	b.put(batch.Closed{})
	if p := b.plan(); len(p.Open()) != 1 || len(p.Deviations) != 0 {
		t.Errorf("closed: open %q, deviations %+v", p.Open(), p.Deviations)
	}
}

package steps_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/quantity"
	"bench/internal/sample"
	"bench/internal/steps"
	"bench/internal/work"
)

// deviationOf gives what is undecided about a task.
func deviationOf(p steps.Plan, task string) (steps.Deviation, bool) {
	at := slices.IndexFunc(p.Deviations, func(d steps.Deviation) bool { return d.Task == task })
	if at < 0 {
		return steps.Deviation{}, false
	}
	return p.Deviations[at], true
}

// offered lists the ways, the one that is preselected with a star.
func offered(ways []steps.WayOn) string {
	var words []string
	for _, w := range ways {
		word := string(w.Fact.Way)
		if w.Default {
			word += "*"
		}
		words = append(words, word)
	}
	return strings.Join(words, ", ")
}

// decide takes a way that is offered.
func (b *bencher) decide(t *testing.T, task string, way batch.Way) steps.WayOn {
	t.Helper()
	d, _ := deviationOf(b.plan(), task)
	ways := b.plan().Ways(d)
	for _, w := range ways {
		if w.Fact.Way == way {
			if err := judge.Allows(b.plan(), w.Fact, b.moment()); err != nil {
				t.Fatal(err)
			}
			b.put(w.Fact)
			return w
		}
	}
	t.Fatalf("%s: %s is not offered, but %s", task, way, offered(ways))
	return steps.WayOn{}
}

// TestWhichWays: what is offered after a wrong weight at each point of the work,
// oils first and lye first.
func TestWhichWays(t *testing.T) {
	oilsFirst := func(b *bencher) {
		b.finish(t, "set out")
		for _, id := range []string{"sea/shea", "sea/coconut"} {
			b.asked(t, id)
		}
	}
	lyeFirst := func(b *bencher) { b.workTo(t, "sea/olive") }
	alkali := func(b *bencher) { b.workTo(t, "sea/sodium hydroxide") }
	water := func(b *bencher) { b.workTo(t, "sea/water") }
	scents := func(b *bencher) { b.workTo(t, "sea/sea/harbour rope") }
	for name, c := range map[string]struct {
		lead        func(*bencher)
		task, typed string
		then        string // then is the task up to which all goes as asked.
		want        string
	}{
		"oil within tolerance":   {oilsFirst, "sea/olive", "574.6", "", ""},
		"oil over, oils first":   {oilsFirst, "sea/olive", "604.1", "", "carry on*, in proportion"},
		"oil under, oils first":  {oilsFirst, "sea/olive", "544.1", "", "carry on*, add oil"},
		"oil over, lye first":    {lyeFirst, "sea/olive", "604.1", "", "carry on*, in proportion"},
		"oil under, lye first":   {lyeFirst, "sea/olive", "544.1", "", "add oil*, add oil, pour part"},
		"oil under, met":         {lyeFirst, "sea/olive", "544.1", "sea/trace/emulsion", "add oil*, add oil"},
		"alkali over":            {alkali, "sea/sodium hydroxide", "184.1", "", "take out*, pour part, add oil"},
		"alkali over, met":       {alkali, "sea/sodium hydroxide", "184.1", "sea/trace/emulsion", "add oil*"},
		"alkali under":           {alkali, "sea/sodium hydroxide", "170.1", "", "carry on, dissolve the missing*"},
		"alkali under, met":      {alkali, "sea/sodium hydroxide", "170.1", "sea/trace/emulsion", "carry on*, dissolve the missing"},
		"alkali under, emulsion": {alkali, "sea/sodium hydroxide", "170.1", "sea/trace/light", "carry on*"},
		"water over":             {water, "sea/water", "400", "", "carry on, in proportion, take out*"},
		"water over, dissolved":  {water, "sea/water", "400", "sea/lye jug/dissolved", "carry on*, in proportion"},
		"water over, met":        {water, "sea/water", "400", "sea/trace/emulsion", "carry on*"},
		"water under":            {water, "sea/water", "340", "", "add the missing*, carry on, in proportion"},
		"water under, dissolved": {water, "sea/water", "340", "sea/lye jug/dissolved", "add the missing*, carry on"},
		"water far under":        {water, "sea/water", "120", "", "add the missing*, in proportion"}, // 60 % does not dissolve
		"oil by eye":             {oilsFirst, "sea/olive", "by eye", "", "carry on*, add oil"},
		"oil left out":           {oilsFirst, "sea/olive", "left out", "", "carry on*, add oil"},
		"scent over":             {scents, "sea/sea/harbour rope", "42", "", "take out*, in proportion, carry on"},
		"scent over, in":         {scents, "sea/sea/harbour rope", "42", "sea/sea/gross", "carry on*"},
		"scent over its limit":   {scents, "sea/sea/harbour rope", "120", "", "take out*, hold the batch"},
		"scent over, stirred in": {scents, "sea/sea/harbour rope", "120", "sea/sea/gross", "hold the batch*"},
		"scent under":            {scents, "sea/sea/harbour rope", "32", "", "add the missing*, carry on"},
		"first oil under":        {func(b *bencher) { b.finish(t, "set out") }, "sea/shea", "171.4", "", "carry on*, add oil, in proportion"},
	} {
		t.Run(name, func(t *testing.T) {
			b := begin(harbour())
			c.lead(b)
			switch c.typed {
			case "by eye":
				if err := b.say(c.task, judge.Answer{How: batch.ByEye}); err != nil {
					t.Fatal(err)
				}
			case "left out":
				b.put(batch.Skipped{Task: c.task, Reason: "none left"})
			default:
				b.typed(t, c.task, c.typed)
			}
			if c.then != "" {
				for b.task(t, c.then).Waits != "" {
					id, _ := b.plan().Next(b.moment())
					b.reads()
					b.asked(t, id)
				}
			}
			d, _ := deviationOf(b.plan(), c.task)
			if got := offered(b.plan().Ways(d)); got != c.want {
				t.Errorf("offered %q, want %q: %s", got, c.want, d.Words)
			}
		})
	}
}

// TestPourPart: 20 g too much of 179: by hand 179.1/199.1 of the solution goes
// into the oils, and the superfat is as stated.
func TestPourPart(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/sodium hydroxide")
	b.typed(t, "sea/sodium hydroxide", "199.1")
	b.decide(t, "sea/sodium hydroxide", batch.PourPart)
	b.workTo(t, "sea/lye part")
	part := b.task(t, "sea/lye part")
	net := part.SoFar - part.Tare
	wanted := koh(574.1, 382.8, 191.4, 127.6) * 0.95 * naohPerKOH
	if want := net.Grams() * wanted / 199.1; math.Abs(part.Target.Grams()-want) > 0.11 {
		t.Errorf("pour %.1f g of %.1f, by hand %.1f", part.Target.Grams(), net.Grams(), want)
	}
	if part.StopAt != part.SoFar-part.Target {
		t.Errorf("stop at %v", part.StopAt)
	}
	b.asked(t, "sea/lye part")
	if s := b.plan().Batters[0].Superfat.Percent; math.Abs(s-5) > 0.06 {
		t.Errorf("superfat %.3f", s)
	}
	b.asked(t, "sea/combine")
	if keep := b.task(t, "sea/keep lye"); !strings.Contains(keep.Title, "LYE, 35.4 %") { // 199.1 in 562.7
		t.Errorf("the rest is labelled %q", keep.Title)
	}
	if err := b.work(never); err != nil {
		t.Fatal(err)
	}
}

// TestInProportion: an oil 10 % over brings the others up by a tenth: those to
// come in their targets, those that are in by more of them.
func TestInProportion(t *testing.T) {
	b := begin(harbour())
	b.finish(t, "set out")
	b.asked(t, "sea/shea")
	b.typed(t, "sea/coconut", "421.1") // asked 382.8: 10.0 % over
	b.decide(t, "sea/coconut", batch.InProportion)
	factor := 421.1 / 382.8
	if got := b.task(t, "sea/olive").Target.Grams(); math.Abs(got-574.1*factor) > 0.2 {
		t.Errorf("olive oil %.1f", got)
	}
	if got := b.task(t, "sea/shea/top-up").Target.Grams(); math.Abs(got-191.4*(factor-1)) > 0.1 {
		t.Errorf("shea butter, more: %.2f", got)
	}
	b.workTo(t, "sea/combine")
	for _, o := range b.plan().Batters[0].Oils {
		if !o.Known {
			t.Errorf("%s is not in", o.Task)
		}
	}
	if s := b.plan().Batters[0].Superfat.Percent; math.Abs(s-5) > 0.06 {
		t.Errorf("superfat %.3f", s)
	}
}

// TestAWaySaysWhatItAsks: fresh hydroxide into a lye solution that is made is no
// small thing, and stands beside the way before it is taken.
func TestAWaySaysWhatItAsks(t *testing.T) {
	b, _ := at(t, "sea/olive")
	if err := b.say("sea/olive", judge.Answer{How: batch.Typed, Text: "604.1"}); err != nil {
		t.Fatal(err)
	}
	was := b.plan()
	way := b.decide(t, "sea/olive", batch.InProportion)
	if len(way.Outcome.Asks) == 0 || !strings.Contains(strings.Join(way.Outcome.Asks, "; "), "sodium hydroxide") {
		t.Errorf("asks %q", way.Outcome.Asks)
	}
	anew := 0
	for _, st := range b.plan().Stages {
		for _, task := range st.Tasks {
			if old, _, ok := was.Task(task.ID); task.Do == work.Weigh && !task.Done && (!ok || old.Done) {
				anew++
			}
		}
	}
	if anew != len(way.Outcome.Asks) {
		t.Errorf("%d weighings are asked anew, and it said %q", anew, way.Outcome.Asks)
	}
}

// TestOfferedWaysKeepTheSuperfat: whatever is off by whatever, no way that is
// offered gives less than the stated superfat, each gives what it promised
// when the rest is weighed as asked, and each leads to a traced batter.
func TestOfferedWaysKeepTheSuperfat(t *testing.T) {
	t.Parallel()

	designs := designs(t)
	rapid.Check(t, func(r *rapid.T) {
		name := rapid.SampledFrom([]string{"harbour", "one big scale", "lighthouse", "tide lines"}).Draw(r, "design")
		b := begin(designs[name](rapid.IntRange(1, 2).Draw(r, "loaves")))
		var ids []string
		for _, batter := range b.plan().Batters {
			for _, a := range slices.Concat(batter.Oils, batter.Alkali, []steps.Amount{batter.Water}, batter.Additives) {
				ids = append(ids, a.Task)
			}
		}
		for _, l := range b.plan().Layers {
			for _, s := range l.Scents {
				if s.Task != "" { // Portions are weighed out of their cups.
					ids = append(ids, s.Task)
				}
			}
		}
		id := rapid.SampledFrom(ids).Draw(r, "task")
		if err := b.work(upTo(id)); err != nil {
			r.Fatal(err)
		}
		task, st, _ := b.plan().Task(id)
		off := quantity.FromGrams(task.Target.Grams() * rapid.Float64Range(-0.25, 0.25).Draw(r, "off")).RoundTo(task.Reads)
		if err := b.say(id, judge.Answer{How: batch.Typed, Text: (task.Target + off).At(task.Reads)}); err != nil {
			return // More than the scale carries is refused.
		}
		later := rapid.IntRange(0, 25).Draw(r, "later")
		_ = b.work(func(work.Task) bool { later--; return later < 0 })
		d, ok := deviationOf(b.plan(), id)
		if !ok {
			return // Within tolerance, or past taking anything in.
		}
		for _, w := range b.plan().Ways(d) {
			asked := 100 * batterOf(b.plan(), st.Batter).Asked.Fraction()
			if s := w.Outcome.Superfat.Percent; s < asked-0.25 && s < batterOf(b.plan(), st.Batter).Superfat.Percent {
				r.Errorf("%s of %v: %s gives %.2f %%", id, off, w.Fact.Way, w.Outcome.Superfat.Percent)
			}
			try := *b
			if err := judge.Allows(try.plan(), w.Fact, try.moment()); err != nil {
				r.Fatal(err)
			}
			try.put(w.Fact)
			if _, still := deviationOf(try.plan(), id); still {
				r.Errorf("%s is still undecided", id)
			}
			try.reads()
			traced := func(work.Task) bool { s, _ := try.plan().Stage("trace/" + st.Batter); return s.Done }
			err := try.work(traced)
			if err == nil {
				err = try.work(never)
			}
			if err != nil {
				r.Fatalf("%s of %v, %s: %v", id, off, w.Fact.Way, err)
			}
			if got := batterOf(try.plan(), st.Batter).Superfat.Percent; math.Abs(got-w.Outcome.Superfat.Percent) > 0.15 {
				r.Errorf("%s of %v: %s promised %.2f %% and gave %.2f", id, off, w.Fact.Way, w.Outcome.Superfat.Percent, got)
			}
		}
	})
}

// TestInProportionTwice: olive oil a twentieth over brings everything up; a scent that is
// over what is asked of it then brings everything up once more, to the oils that it is 3 %
// of (by hand: 26.00 / 0.03 = 866.7 g). Once the first is weighed in, nothing would come of
// it, and it is not offered.
func TestInProportionTwice(t *testing.T) {
	b := begin(sample.Control(t, "lighthouse-at-dusk.yaml", 3))
	b.workTo(t, "sea/olive")
	b.typed(t, "sea/olive", "361.5") // asked 344.3
	b.decide(t, "sea/olive", batch.InProportion)
	late := &bencher{now: b.now, state: b.state}
	late.workTo(t, "sea/base/driftwood")
	late.typed(t, "sea/base/driftwood", "26.00")
	d, _ := deviationOf(late.plan(), "sea/base/driftwood")
	if ways := late.plan().Ways(d); len(ways) == 0 || slices.ContainsFunc(ways, func(w steps.WayOn) bool { return w.Fact.Way == batch.InProportion }) {
		t.Errorf("too late, and offered %s", offered(ways))
	}
	if asked := b.task(t, "sea/base/driftwood").Target.Grams(); math.Abs(asked-22.95*361.5/344.3) > 0.02 {
		t.Fatalf("driftwood %.2f g", asked)
	}
	b.typed(t, "sea/base/driftwood", "26.00")
	if way := b.decide(t, "sea/base/driftwood", batch.InProportion); !strings.Contains(strings.Join(way.Outcome.Asks, ";"), "olive oil") {
		t.Errorf("it asks for %q", way.Outcome.Asks)
	}
	oils := 0.0
	for _, o := range b.plan().Batters[0].Oils {
		oils += o.Mass.Grams()
	}
	if math.Abs(oils-26.00/0.03) > 1.5 {
		t.Errorf("oils %.1f g, by hand %.1f g", oils, 26.00/0.03)
	}
}

// TestProportionThatDoesNothing: what comes to the same as carrying on, or takes the
// superfat further off, is not offered; and what is within its tolerance while it is
// weighed is so afterwards.
func TestProportionThatDoesNothing(t *testing.T) {
	b := begin(sample.Control(t, "lighthouse-at-dusk.yaml", 3))
	b.workTo(t, "sea/olive")
	b.typed(t, "sea/olive", "401.1") // 16.5 % over
	b.decide(t, "sea/olive", batch.InProportion)
	b.workTo(t, "sea/castor")
	castor := b.task(t, "sea/castor")
	for _, c := range []struct {
		off quantity.Mass
		is  bool
	}{{castor.Tolerance.FloorTo(castor.Reads), false}, {castor.Tolerance.FloorTo(castor.Reads) + castor.Reads, true}} {
		was := b.state
		b.typed(t, "sea/castor", (castor.Target + c.off).At(castor.Reads))
		d, off := deviationOf(b.plan(), "sea/castor")
		if after := b.task(t, "sea/castor"); off != c.is || after.Tolerance != castor.Tolerance {
			t.Errorf("%s over, within %s: deviates %v, within %s", c.off, castor.Tolerance, off, after.Tolerance)
		}
		var on *steps.WayOn
		for _, w := range b.plan().Ways(d) {
			switch {
			case w.Fact.Way == batch.CarryOn:
				on = &w
			case w.Fact.Way == batch.InProportion && on != nil && math.Abs(w.Outcome.Superfat.Percent-5) > math.Abs(on.Outcome.Superfat.Percent-5)+0.25:
				t.Errorf("%s: offered with %s, carrying on has %s", c.off, w.Outcome, on.Outcome)
			}
		}
		b.state, b.planned = was, nil
	}
}

// TestAnotherOilInItsPlace: of 9.3 g of castor oil that there is no more of, olive oil takes
// up the alkali: by the middles of the table 9.3 × 181.5/190 g, by hand 8.89 g.
func TestAnotherOilInItsPlace(t *testing.T) {
	b := begin(sample.Control(t, "lighthouse-at-dusk.yaml", 3))
	b.workTo(t, "sea/castor")
	b.typed(t, "sea/castor", "44.3") // asked 53.6
	before := b.plan().Batters[0].Superfat.Percent
	d, _ := deviationOf(b.plan(), "sea/castor")
	for _, w := range b.plan().Ways(d) {
		if w.Fact.Oil != "olive" {
			continue
		}
		if g := w.Fact.Mass.Grams(); math.Abs(g-9.3*181.5/190) > 0.06 || math.Abs(w.Outcome.Superfat.Percent-5) > 0.03 || before > 4.9 {
			t.Errorf("%s: %s, before %.2f %%", w.Title, w.Outcome, before)
		}
		b.put(w.Fact)
		if err := b.work(never); err != nil {
			t.Error(err)
		}
		return
	}
	t.Errorf("no other oil is offered: %s", offered(b.plan().Ways(d)))
}

// TestWhyLoavesGetUnlike: loaf 1 got 40 g more of the base than the others, so it gets less of the
// sky, and its cup of scent less; both say why. Where all are alike nothing is said.
func TestWhyLoavesGetUnlike(t *testing.T) {
	for _, off := range []quantity.Mass{0, 40 * quantity.Gram} {
		b := begin(sample.Control(t, "lighthouse-at-dusk.yaml", 3))
		b.workTo(t, "sea/base/loaf 1")
		b.poursOff(t, "sea/base/loaf 1", off)
		b.workTo(t, "dusk/meet")
		for _, id := range []string{"dusk/sky/loaf 1/evening rose/cup", "dusk/sky/loaf 1"} {
			if says := strings.Contains(b.task(t, id).Hint, "brings all to one height"); says != (off > 0) {
				t.Errorf("%s off: %s says %q", off, id, b.task(t, id).Hint)
			}
		}
	}
}

// TestOutAgainGoesBack: what is taken out of a cup again goes back into its container, and
// whoever needs the cup next is told what is in it.
func TestOutAgainGoesBack(t *testing.T) {
	b := begin(sample.Control(t, "lighthouse-at-dusk.yaml", 3))
	b.workTo(t, "sea/base/driftwood")
	b.typed(t, "sea/base/driftwood", "27.25") // asked 22.95
	b.decide(t, "sea/base/driftwood", batch.TakeOut)
	out := b.task(t, "sea/base/driftwood/out")
	if !strings.Contains(out.Hint, "Back into its own container") {
		t.Errorf("%q", out.Hint)
	}
	told := false
	for _, st := range b.plan().Stages {
		for _, task := range st.Tasks {
			if strings.Contains(task.Hint, ", out again was in it") {
				t.Errorf("%s: %q", task.ID, task.Hint)
			}
			told = told || task.Vessel == out.Vessel && strings.Contains(task.Hint, "holds driftwood that came out again: back into its container")
		}
	}
	if !told {
		t.Errorf("nobody is told what is in %s", out.Vessel)
	}
}

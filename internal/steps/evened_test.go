package steps_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/quantity"
	"bench/internal/readback"
	"bench/internal/sample"
	"bench/internal/say"
	"bench/internal/steps"
	"bench/internal/work"

	"pgregory.net/rapid"
)

const loaf1, loaf2, loaf3 = "sea/sea/loaf 1", "sea/sea/loaf 2", "sea/sea/loaf 3"

// poursOff answers a portion with so much more than is asked.
func (b *bencher) poursOff(t *testing.T, id string, off quantity.Mass) {
	t.Helper()
	task := b.task(t, id)
	b.typed(t, id, (task.SoFar - task.Target - off).At(task.Reads))
}

// splitSea works the harbour to the split of the sea, of which 1803.7 g are shared out:
// 601.3, 601.2 and 601.2 g.
func splitSea(t *testing.T) *bencher {
	t.Helper()
	b := begin(harbour())
	b.workTo(t, "sea/sea/gross")
	b.typed(t, "sea/sea/gross", "2463.7") // pot of 640 g: net 1823.7, and 20 stays
	return b
}

// TestWaysOfAPortion: what is offered for a portion that was off, at each point of a split.
func TestWaysOfAPortion(t *testing.T) {
	for name, c := range map[string]struct {
		offs []quantity.Mass // offs are of the loaves in their order.
		of   string
		want string
	}{
		"within its tolerance":         {[]quantity.Mass{2 * g}, loaf1, ""},
		"over, others to come":         {[]quantity.Mass{20 * g}, loaf1, "carry on, pour back*"},
		"under, others to come":        {[]quantity.Mass{-20 * g}, loaf1, "carry on, add the missing*"},
		"over, others poured":          {[]quantity.Mass{20 * g, 0, 0}, loaf1, "carry on, pour back, pour over*, pour over"},
		"under, others poured":         {[]quantity.Mass{-20 * g, 0, 0}, loaf1, "carry on, pour over*, pour over"},
		"the last under":               {[]quantity.Mass{0, 0, -20 * g}, loaf3, "carry on, add the missing*"},
		"the last over":                {[]quantity.Mass{0, 0, 12 * g}, loaf3, "carry on, pour back*"},
		"one over and one under":       {[]quantity.Mass{20 * g, 0, -15 * g}, loaf1, "carry on, pour back, pour over*, pour over"},
		"as asked of what others left": {[]quantity.Mass{20 * g, 0, 0}, loaf2, ""},
	} {
		t.Run(name, func(t *testing.T) {
			b := splitSea(t)
			for i, off := range c.offs {
				b.poursOff(t, fmt.Sprintf("sea/sea/loaf %d", i+1), off)
			}
			d, _ := deviationOf(b.plan(), c.of)
			if got := offered(b.plan().Ways(d)); c.want == "" && d.Task != "" || c.want != "" && got != c.want {
				t.Errorf("offered %q, want %q: %s", got, c.want, d.Words)
			}
		})
	}
}

// TestPouredBack: 20 g too much go back into the pot, which then holds 1222.4 g and asks
// for 601.2 g twice more; of 18 g that went back, 2 g less.
func TestPouredBack(t *testing.T) {
	for poured, want := range map[string]quantity.Mass{"20": 601_200, "18": 600_200} {
		b := splitSea(t)
		b.poursOff(t, loaf1, 20*g)
		w := b.decide(t, loaf1, batch.PourBack)
		if w.Fact.Mass != 20*g || w.Outcome.Split == nil || w.Outcome.Split.Left.RoundTo(g) != 20*g || len(w.Outcome.Asks) != 1 {
			t.Errorf("%+v", w)
		}
		id := loaf1 + "/evened"
		if next, _ := b.plan().Next(b.moment()); next != id {
			t.Fatalf("%s is next", next)
		}
		move := b.task(t, id)
		// pot 640 g, 1823.7 g in it less the 621.3 g that were poured out
		if move.Target != 20*g || move.Vessel != "pot 1" || move.SoFar != 1_202_400 || move.Untared() != 1_862_400 || !strings.Contains(move.Hint, "Out of jug 1") {
			t.Errorf("%+v", move)
		}
		b.typed(t, id, poured)
		second := b.task(t, loaf2)
		if second.Target != want || !second.Open || second.SoFar != 640*g+1_202_400+b.task(t, id).Mass {
			t.Errorf("%s back: then %s out of %s, want %s", poured, second.Target, second.SoFar, want)
		}
		if len(b.plan().Deviations) > 0 {
			t.Errorf("%+v", b.plan().Deviations)
		}
		b.workTo(t, steps.EmbedTask("sea", 0, "moon"))
		loaves := b.plan().Layers[0].Loaves
		if off := (loaves[0].Mass - loaves[2].Mass).Abs(); off > 3100 || poured == "20" && off > 200 {
			t.Errorf("%s back: %s and %s in the moulds", poured, loaves[0].Mass, loaves[2].Mass)
		}
	}
}

// TestPouredOver: too much in one of three that are all poured goes over into the two
// others, one after the other, until none is off.
func TestPouredOver(t *testing.T) {
	b := splitSea(t)
	b.poursOff(t, loaf1, 20*g)
	b.asked(t, loaf2)
	b.asked(t, loaf3)
	for i := range 2 {
		w := b.decide(t, loaf1, batch.PourOver)
		if w.Fact.Mass != 10*g {
			t.Errorf("%s go over into %s", w.Fact.Mass, w.Fact.Other)
		}
		b.asked(t, []string{loaf1 + "/evened", loaf1 + "/evened (2)"}[i])
	}
	if p := b.plan(); len(p.Deviations) > 0 || !strings.Contains(say.Settled(p), "evened out") {
		t.Errorf("%+v; %s", p.Deviations, say.Settled(p))
	}
	for i, want := range []quantity.Mass{601_300, 601_200, 601_200} {
		if got := b.task(t, fmt.Sprintf("sea/sea/loaf %d", i+1)).There(); got != want {
			t.Errorf("loaf %d holds %s, not %s", i+1, got, want)
		}
	}
	b.workTo(t, "split/sea/read back")
	lines := readback.Of(b.plan(), "split/sea/read back")
	if len(lines) != 4 {
		t.Errorf("read back: %+v", lines)
	}
	for i, l := range lines {
		if i > 0 && l.Off || i == 1 && (l.Was != "601.3 g" || l.By != "621.3 g less 20.0 g poured out") || i == 2 && l.By != "591.2 g and 10.0 g poured in" {
			t.Errorf("%+v", l)
		}
	}
	if err := b.work(never); err != nil {
		t.Fatal(err)
	}
}

// TestTooLittleIsPouredIn: what the last loaf lacks comes out of the pot where it is left,
// and out of another where that one has too much.
func TestTooLittleIsPouredIn(t *testing.T) {
	b := splitSea(t)
	b.asked(t, loaf1)
	b.asked(t, loaf2)
	b.poursOff(t, loaf3, -15*g)
	w := b.decide(t, loaf3, batch.AddMissing)
	move := b.task(t, loaf3+"/evened")
	if w.Fact.Mass != 15*g || move.Vessel != "jug 3" || move.SoFar != 586_200 || !strings.Contains(move.Hint, "Out of pot 1") {
		t.Errorf("%+v", move)
	}
	b.asked(t, move.ID)
	if l := b.plan().Layers[0]; b.task(t, loaf3).There() != 601_200 || l.Left != 20*g {
		t.Errorf("%s in jug 3, %s in the pot", b.task(t, loaf3).There(), l.Left)
	}

	b = splitSea(t)
	b.poursOff(t, loaf1, -30*g)
	b.asked(t, loaf2)
	b.asked(t, loaf3)
	w = b.decide(t, loaf1, batch.PourOver)
	move = b.task(t, loaf1+"/evened")
	if strings.Contains(move.Hint, "Wipe") { // It holds what the move is added to.
		t.Error(move.Hint)
	}
	if w.Fact.Off != -30*g || w.Fact.Mass != 15*g || move.Vessel != "jug 1" || !strings.Contains(move.Hint, "Out of jug ") {
		t.Errorf("%+v: %+v", w.Fact, move)
	}
	b.asked(t, move.ID)
	if b.task(t, loaf1).There() != 586_300 || b.task(t, w.Fact.Other).There() != 601_200 {
		t.Errorf("%s and %s", b.task(t, loaf1).There(), b.task(t, w.Fact.Other).There())
	}
}

// TestLeftAsItIs: a portion that is left over its share is poured higher, its scent stays
// within its limit of 4 % in what is there, and nothing is asked any more.
func TestLeftAsItIs(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "dusk/dusk/loaf 1")
	b.poursOff(t, "dusk/dusk/loaf 1", 60*g)
	w := b.decide(t, "dusk/dusk/loaf 1", batch.CarryOn)
	if s := w.Outcome.Split; s == nil || (s.Highest-s.Lowest).Millimetres() < 3 {
		t.Errorf("60 g and the 30 g that others lack are %v", s)
	}
	if len(b.plan().Deviations) > 0 {
		t.Errorf("%+v", b.plan().Deviations)
	}
	b.workTo(t, "dusk/dusk/loaf 1/evening smoke")
	portion, scent := b.task(t, "dusk/dusk/loaf 1").Mass, b.task(t, "dusk/dusk/loaf 1/evening smoke").Target
	if scent.Grams() > 0.04*(portion+scent).Grams() || scent <= 10_080 {
		t.Errorf("%s of scent in %s", scent, portion)
	}
}

// TestNothingIsPouredBackOnceItIsScented: a way is there until the portion is scented, or
// poured, and no longer; what was decided before is not asked for any more.
func TestNothingIsPouredBackOnceItIsScented(t *testing.T) {
	b := begin(harbour())
	id := "dusk/dusk/loaf 1"
	b.workTo(t, id)
	b.poursOff(t, id, 20*g)
	d, _ := deviationOf(b.plan(), id)
	way := b.plan().Ways(d)[1].Fact
	b.workTo(t, id+"/evening smoke")
	if _, ok := deviationOf(b.plan(), id); !ok {
		t.Error("not to be decided before it is scented")
	}
	b.asked(t, id+"/evening smoke")
	if _, ok := deviationOf(b.plan(), id); ok || judge.Allows(b.plan(), way, b.moment()) == nil {
		t.Error("to be decided although it is scented")
	}
	s := splitSea(t)
	s.poursOff(t, loaf1, 20*g)
	s.workTo(t, "sea/sea/loaf 2/pour")
	if _, ok := deviationOf(s.plan(), loaf1); ok {
		t.Error("to be decided although it is poured")
	}
}

// TestDecisionOnAPortionEnds: with a correction that mends it, or leaves another weight;
// and one whose pouring is left out is to be decided anew. What was poured back counts.
func TestDecisionOnAPortionEnds(t *testing.T) {
	id := loaf1 + "/evened"
	begun := func() *bencher {
		b := splitSea(t)
		b.poursOff(t, loaf1, 20*g)
		b.decide(t, loaf1, batch.PourBack)
		return b
	}
	correct := func(b *bencher, mass quantity.Mass) {
		w := b.state.Weighings(loaf1)[0]
		with := w.Fact
		with.Mass = mass
		b.allows(t, batch.Corrected{Seq: w.Seq, Reason: "misread", With: with})
	}
	b := begun()
	correct(b, 601_300)
	if _, _, asked := b.plan().Task(id); asked || len(b.plan().Deviations) > 0 {
		t.Error("what was mended is poured back")
	}
	b = begun()
	b.asked(t, id)
	correct(b, 601_300) // So 20 g too little are in it now.
	d, ok := deviationOf(b.plan(), loaf1)
	if ok || b.task(t, loaf1).There() != 581_300 || b.task(t, loaf2).Target != 611_200 {
		t.Errorf("%s in it, %s for the next: %+v", b.task(t, loaf1).There(), b.task(t, loaf2).Target, d)
	}
	b = begun()
	b.allows(t, batch.Skipped{Task: id, Reason: "it is thick by now"})
	if d, _ := deviationOf(b.plan(), loaf1); offered(b.plan().Ways(d)) != "carry on, pour back*" {
		t.Error("left out, and nothing is to be decided")
	}
	b.decide(t, loaf1, batch.CarryOn)
	b.workTo(t, loaf2)
}

// TestNoMoreThanThereIs: nothing is poured over that is not there.
func TestNoMoreThanThereIs(t *testing.T) {
	b := splitSea(t)
	b.poursOff(t, loaf1, 20*g)
	b.decide(t, loaf1, batch.PourBack)
	if err := b.say(loaf1+"/evened", judge.Answer{How: batch.Typed, Text: "621.4"}); err == nil || !strings.Contains(err.Error(), "621.3 g") {
		t.Errorf("621.4 g back out of 621.3: %v", err)
	}
	b.typed(t, loaf1+"/evened", "1862.4") // Untared: the pot, what is in it, and 20 g.
	if got := b.task(t, loaf1+"/evened").Mass; got != 20*g {
		t.Errorf("%s", got)
	}
}

// TestPartGoesBackIntoItsPot: what a layer got too much of goes back into the pot before it is
// coloured, and not after it.
func TestPartGoesBackIntoItsPot(t *testing.T) {
	b := begin(sample.Control(t, "tide-lines.yaml", 2))
	part := ""
	if err := b.work(func(t work.Task) bool {
		if t.Do == work.Portion {
			part = t.ID
		}
		return part != ""
	}); err != nil || part == "" {
		t.Fatal(part, err)
	}
	b.poursOff(t, part, 40*g)
	before := b.plan()
	b.decide(t, part, batch.PourBack)
	b.asked(t, part+"/evened")
	p := b.plan()
	if p.Layers[0].Mass >= before.Layers[0].Mass || p.Layers[1].Mass <= before.Layers[1].Mass {
		t.Errorf("%s and %s, before %s and %s", p.Layers[0].Mass, p.Layers[1].Mass, before.Layers[0].Mass, before.Layers[1].Mass)
	}
	if err := b.work(never); err != nil {
		t.Fatal(err)
	}

	b = begin(sample.Control(t, "tide-lines.yaml", 2))
	b.workTo(t, part)
	b.poursOff(t, part, 40*g)
	split := b.plan()
	stage := slices.IndexFunc(split.Stages, func(s work.Stage) bool { return s.Kind == work.ColourBatter && s.Layer == split.Layers[0].Name })
	if stage < 0 {
		t.Fatal("no layer is coloured by itself")
	}
	b.workTo(t, split.Stages[stage].Tasks[0].ID)
	if _, ok := deviationOf(b.plan(), part); !ok {
		t.Error("not to be decided before it is coloured")
	}
	b.asked(t, split.Stages[stage].Tasks[0].ID)
	if _, ok := deviationOf(b.plan(), part); ok {
		t.Error("to be decided although it is coloured")
	}
}

// TestJugOfAPart: what is poured over between the parts of a pot that is not the first goes
// from jug to jug as they were poured out.
func TestJugOfAPart(t *testing.T) {
	c := harbour()
	c.Loaves = 1
	night := c.Recipe.Layers[1]
	night.Name, night.Embeds, c.Recipe.Layers[1].Surface = "night", nil, 55*mm
	c.Recipe.Layers = append(c.Recipe.Layers, night)
	b := begin(c)
	b.workTo(t, "dusk/dusk/part")
	b.poursOff(t, "dusk/dusk/part", 40*g)
	d, _ := deviationOf(b.plan(), "dusk/dusk/part")
	jug := b.task(t, "dusk/dusk/part").Into
	if w := b.plan().Ways(d); len(w) != 2 || !strings.Contains(w[1].Title, "of "+jug+" back into") {
		t.Errorf("poured into %s: %+v", jug, w)
	}
	b.asked(t, "dusk/night/part")
	b.decide(t, "dusk/dusk/part", batch.PourOver)
	if move := b.task(t, "dusk/dusk/part/evened"); move.Vessel != b.task(t, "dusk/night/part").Into || !strings.HasPrefix(move.Hint, "Out of "+jug) {
		t.Errorf("poured into %s: %+v", jug, move)
	}
}

// TestEveryGramOfASplit: whatever was poured and decided, and however much of that was
// poured over, jugs and pot together hold what the pot held.
func TestEveryGramOfASplit(t *testing.T) {
	start := splitSea(t)
	rapid.Check(t, func(rt *rapid.T) {
		b := &bencher{state: start.state, now: start.now}
		for range 12 {
			if p := b.plan(); len(p.Deviations) > 0 && rapid.Bool().Draw(rt, "decide") {
				d := rapid.SampledFrom(p.Deviations).Draw(rt, "portion")
				w := rapid.SampledFrom(p.Ways(d)).Draw(rt, "way")
				if err := judge.Allows(p, w.Fact, b.moment()); err != nil {
					rt.Fatal(err)
				}
				b.put(w.Fact)
			}
			id, _ := b.plan().Next(b.moment())
			task, st, _ := b.plan().Task(id)
			if st.Kind != work.Split || task.Do == work.Confirm {
				break
			}
			off := quantity.Mass(rapid.IntRange(-400, 400).Draw(rt, "off")) * g / 10
			if off < -task.Target/2 {
				off = 0
			}
			if task.Do == work.Weigh {
				off /= 10
			}
			text := (task.Target + off).At(task.Reads)
			if task.Do == work.Portion {
				text = max(task.Tare, task.SoFar-task.Target-off).At(task.Reads)
			}
			if err := b.say(id, judge.Answer{How: batch.Typed, Text: text}); err != nil {
				rt.Fatal(id, err)
			}
			p := b.plan()
			all, open := p.Layers[0].Left, quantity.Mass(0)
			for _, id := range []string{loaf1, loaf2, loaf3} {
				task, _, _ := p.Task(id)
				if task.Done {
					all += task.There()
				} else {
					all, open = all+task.Target, open+task.Target
				}
				if task.There() < 0 || task.Target < 0 {
					rt.Fatalf("%+v", task)
				}
			}
			if off := (all - 1_823_700).Abs(); off > 0 {
				rt.Fatalf("%s are accounted for, of 1823.7 g", all)
			}
		}
	})
}

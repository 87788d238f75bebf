package steps_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/quantity"
	"bench/internal/readback"
	"bench/internal/sample"
	"bench/internal/steps"
)

// oliveOver takes a batter to an olive oil that is 5.2 % over once its lye solution is
// made and its jug was weighed, and brings everything else up.
func oliveOver(t *testing.T) *bencher {
	t.Helper()
	b := begin(harbour())
	b.workTo(t, "sea/olive")
	if !b.task(t, "sea/lye jug/dissolved").Done {
		t.Fatal("the jug was to be weighed before")
	}
	b.typed(t, "sea/olive", "604.1")
	b.decide(t, "sea/olive", batch.InProportion)
	return b
}

// TestNoWaterOntoAlkali: what a lye solution that is made is brought up by is made as
// a solution of its own, alkali into water, with its cautions, and then poured in
// (the order of dissolving: ECHA/GHS supplier data sheets, from memory).
func TestNoWaterOntoAlkali(t *testing.T) {
	b := oliveOver(t)
	_, st, _ := b.plan().Task("sea/water/top-up")
	var after []string
	for _, task := range st.Tasks {
		if task.ID == "sea/dissolve" {
			after = []string{}
		} else if after != nil {
			after = append(after, task.ID)
		}
	}
	if got := strings.Join(after, ", "); got != "sea/water/top-up, sea/sodium hydroxide/top-up, sea/dissolve more, sea/lye jug/dissolved, lye/sea/read back" {
		t.Errorf("after the lye solution: %s", got)
	}
	water, alkali := b.task(t, "sea/water/top-up"), b.task(t, "sea/sodium hydroxide/top-up")
	if jug := b.task(t, "sea/water").Vessel; water.Vessel == jug || water.Into == jug || alkali.Into != water.Vessel {
		t.Errorf("water in %s into %q, alkali into %q", water.Vessel, water.Into, alkali.Into)
	}
	if water.Target < alkali.Target {
		t.Errorf("%v of water cannot dissolve %v", water.Target, alkali.Target)
	}
	for _, id := range []string{water.ID, alkali.ID, "sea/dissolve more"} {
		if hint := b.task(t, id).Hint; !strings.Contains(hint, "oggles") || !strings.Contains(hint, "loves") {
			t.Errorf("%s lacks its caution: %q", id, hint)
		}
	}
	if hint := water.Hint; !strings.Contains(hint, "never water into alkali") {
		t.Errorf("water: %q", hint)
	}
	for _, id := range []string{alkali.ID, "sea/dissolve more"} {
		if hint := b.task(t, id).Hint; !strings.Contains(hint, "it heats") {
			t.Errorf("%s: %q", id, hint)
		}
	}
}

// TestWaterComesFirst: what else goes into the small solution is weighed in a cup of
// its own, after the water.
func TestWaterComesFirst(t *testing.T) {
	b := begin(sample.Control(t, "lighthouse-at-dusk.yaml", 2))
	b.workTo(t, "sea/olive")
	b.typed(t, "sea/olive", "255")
	b.decide(t, "sea/olive", batch.InProportion)
	b.workTo(t, "sea/water/top-up")
	water, lactate := b.task(t, "sea/water/top-up"), b.task(t, "sea/sodium lactate/top-up")
	if lactate.Open || !water.Open || lactate.Vessel == water.Vessel || lactate.Into != water.Vessel {
		t.Errorf("%+v\n%+v", water, lactate)
	}
}

// TestJugIsWeighedAgain: a jug that gets more is weighed again, and what it should
// weigh counts what is poured in, once it is.
func TestJugIsWeighedAgain(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/olive")
	was := b.task(t, "sea/lye jug/dissolved").Mass
	b.typed(t, "sea/olive", "604.1")
	b.decide(t, "sea/olive", batch.InProportion)
	jug := b.task(t, "sea/lye jug/dissolved")
	if jug.Done {
		t.Fatal("the weight of before counts for the jug of after")
	}
	more := b.task(t, "sea/water/top-up").Target + b.task(t, "sea/sodium hydroxide/top-up").Target
	if off := jug.Target - was - more; off.Abs() > 200 {
		t.Errorf("the jug should weigh %v, was %v, gets %v", jug.Target, was, more)
	}
	b.asked(t, "sea/water/top-up")
	alkali := b.task(t, "sea/sodium hydroxide/top-up")
	b.typed(t, alkali.ID, alkali.Target.At(alkali.Reads))
	if f, err := b.plan().PotCheck(jug.Vessel, was); err != nil || !strings.HasPrefix(f.Words, "as it should be") {
		t.Errorf("before it is poured in: %q, %v", f.Words, err)
	}
	if err := b.say("sea/dissolve more", judge.Answer{}); err != nil {
		t.Fatal(err)
	}
	if f, err := b.plan().PotCheck(jug.Vessel, was+more); err != nil || !strings.HasPrefix(f.Words, "as it should be") {
		t.Errorf("once it is poured in: %q, %v", f.Words, err)
	}
	b.workTo(t, "sea/combine")
	b.jugIsRight(t)
	sea := b.plan().Batters[0]
	if math.Abs(100*sea.Concentration-33) > 0.1 || math.Abs(sea.Superfat.Percent-5) > 0.1 {
		t.Errorf("lye %.2f %%, superfat %.2f %%", 100*sea.Concentration, sea.Superfat.Percent)
	}
}

// TestWaterAloneStaysOutOfTheJug: water that is found short once the alkali is
// dissolved in it goes into the batter; one that went into a jug by an earlier version
// of the rules stays there.
func TestWaterAloneStaysOutOfTheJug(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/water")
	b.typed(t, "sea/water", "323.6") // asked 363.6
	b.workTo(t, "sea/lye jug/dissolved")
	b.decide(t, "sea/water", batch.AddMissing)
	task, st, _ := b.plan().Task("sea/water/missing")
	if st.ID != "trace/sea" || !strings.Contains(task.Hint, "never water into alkali") {
		t.Errorf("%s: %q", st.ID, task.Hint)
	}
	old := b.state
	b.workTo(t, "sea/trace/light")
	if got := b.plan().Batters[0]; !b.task(t, "sea/water/missing").Done || math.Abs(100*got.Concentration-33) > 0.1 {
		t.Errorf("lye %.2f %%", 100*got.Concentration)
	}
	into := old.Apply(batch.Entry{Seq: len(old.Entries) + 1, Fact: batch.Weighed{
		Task: "sea/water/missing", Material: "water", Mass: task.Target, Target: task.Target, Vessel: task.Vessel, Scale: task.Scale, Reads: task.Reads, How: batch.AtTarget,
	}})
	if _, st, _ := steps.Of(into).Task("sea/water/missing"); st.ID != "lye/sea" {
		t.Errorf("what is in the jug stands in %s", st.ID)
	}
}

// TestTheWayCountsTheAddedLye: what a way promises is what it comes to, also when the
// lye jug was weighed before, and lighter by its steam.
func TestTheWayCountsTheAddedLye(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/lye jug/dissolved")
	b.typed(t, "sea/lye jug/dissolved", (b.task(t, "sea/lye jug/dissolved").Target - 4*g).At(g/10))
	b.workTo(t, "sea/olive")
	b.typed(t, "sea/olive", "604.1")
	was := b.plan()
	way := b.decide(t, "sea/olive", batch.InProportion)
	promised := b.plan().Batters[0].Mass
	b.workTo(t, "sea/lye jug")
	is := b.plan()
	if off := is.Batters[0].Mass - promised; off.Abs() > 500 {
		t.Errorf("%v of batter promised, %v more", promised, off)
	}
	top := len(is.Layers) - 1
	if rise := is.Layers[top].Surface - was.Layers[top].Surface; max(rise-way.Outcome.Rise, way.Outcome.Rise-rise) > quantity.Millimetre/10 {
		t.Errorf("%v higher, promised %v", rise, way.Outcome.Rise)
	}
}

// TestMoreHardOilIsMelted: a hard oil that is added after the others melted is melted
// in, and the look at it comes again; a liquid one asks for neither.
func TestMoreHardOilIsMelted(t *testing.T) {
	b := oliveOver(t)
	more := b.task(t, "sea/shea/top-up")
	if !strings.Contains(more.Hint, "Melt it") {
		t.Errorf("hint %q", more.Hint)
	}
	melt := b.task(t, "sea/more/melt")
	if melt.Open || melt.Done || !b.task(t, "sea/melt").Done {
		t.Errorf("before it is in: %+v", melt)
	}
	for _, id := range []string{"sea/coconut/top-up", more.ID} {
		b.asked(t, id)
	}
	b.workTo(t, "sea/more/melt")
	if !b.task(t, "sea/more/melt").Open {
		t.Error("it is not asked again")
	}
	b = begin(harbour())
	b.workTo(t, "sea/meet")
	if _, _, ok := b.plan().Task("sea/more/melt"); ok {
		t.Error("nothing was added")
	}
}

// TestMoreHardOilBeforeTheMelt: while the hard oils are not melted, more of one is weighed
// before they are, and they are melted once; what was so weighed stays there afterwards.
func TestMoreHardOilBeforeTheMelt(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/shea") // Shea and coconut are the harbour's hard oils.
	b.asked(t, "sea/shea")
	b.typed(t, "sea/coconut", "421.1")
	b.decide(t, "sea/coconut", batch.InProportion)
	holds := func() {
		t.Helper()
		_, st, _ := b.plan().Task("sea/melt")
		var ids []string
		for _, task := range st.Tasks {
			ids = append(ids, strings.TrimPrefix(task.ID, "sea/"))
		}
		if got := strings.Join(ids, " "); !strings.Contains(got, "shea/top-up melt olive castor") || strings.Contains(got, "more/melt") {
			t.Error(got)
		}
	}
	holds()
	if b.task(t, "sea/melt").Open {
		t.Error("melted before all of them are in")
	}
	b.asked(t, "sea/shea/top-up")
	b.allows(t, batch.Ticked{Task: "sea/melt"})
	holds()
}

// TestTooMuchExtraAlkali: extra alkali that is over by far can come out of its cup
// again while it is dry, or be made up for; the way that is taken gives the superfat.
func TestTooMuchExtraAlkali(t *testing.T) {
	for way, then := range map[batch.Way]string{batch.TakeOut: "sea/sodium hydroxide/top-up/out", batch.AddOil: "sea/olive/for sodium hydroxide/top-up", batch.PourPart: "sea/lye part"} {
		b := oliveOver(t)
		b.asked(t, "sea/water/top-up")
		more := b.task(t, "sea/sodium hydroxide/top-up")
		b.typed(t, more.ID, (more.Target + 6*g).At(more.Reads))
		b.decide(t, more.ID, way)
		if task := b.task(t, then); task.Done || way == batch.TakeOut && (!task.MustType || !task.Open) {
			t.Errorf("%s: %+v", way, task)
		}
		b.workTo(t, "sea/combine")
		if sea := b.plan().Batters[0]; math.Abs(sea.Superfat.Percent-5) > 0.1 {
			t.Errorf("%s: superfat %.2f %%", way, sea.Superfat.Percent)
		}
		b.jugIsRight(t)
	}
}

// jugIsRight holds the pause point of the lye solution to reading its jug back, and as it
// should be.
func (b *bencher) jugIsRight(t *testing.T) {
	t.Helper()
	lines := slices.DeleteFunc(readback.Of(b.plan(), "lye/sea/read back"), func(l readback.Line) bool { return !strings.Contains(l.What, "jug") })
	if len(lines) == 0 || slices.ContainsFunc(lines, func(l readback.Line) bool { return l.Off }) {
		t.Errorf("read back: %+v", lines)
	}
}

// TestDryAlkaliComesOut: too much alkali comes out of its cup while it is dry, and no
// longer once it is dissolved.
func TestDryAlkaliComesOut(t *testing.T) {
	b, task := at(t, "sea/sodium hydroxide")
	b.typed(t, task.ID, (task.Target + 6*g).At(task.Reads))
	dissolving := b.state
	b.decide(t, task.ID, batch.TakeOut)
	b.workTo(t, "sea/combine")
	if sea := b.plan().Batters[0]; !b.task(t, task.ID+"/out").Done || math.Abs(sea.Superfat.Percent-5) > 0.1 {
		t.Errorf("superfat %.2f %%", sea.Superfat.Percent)
	}
	wet := steps.Of(dissolving.Apply(batch.Entry{Seq: len(dissolving.Entries) + 1, Fact: batch.Ticked{Task: "sea/dissolve"}}))
	d, ok := deviationOf(wet, task.ID)
	if !ok {
		t.Fatal("it is off")
	}
	for _, w := range wet.Ways(d) {
		if w.Fact.Way == batch.TakeOut {
			t.Errorf("%q", w.Title)
		}
	}
}

package steps_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/quantity"
	"bench/internal/say"
	"bench/internal/steps"

	"pgregory.net/rapid"
)

func batterOf(p steps.Plan, name string) steps.Batter {
	return p.Batters[slices.IndexFunc(p.Batters, func(b steps.Batter) bool { return b.Name == name })]
}

// TestSuperfatFromFacts: the superfat worked out from the weights that the plan
// names is the plan's, whatever was weighed.
func TestSuperfatFromFacts(t *testing.T) {
	t.Parallel()

	rapid.Check(t, func(r *rapid.T) {
		b := begin(harbour())
		for _, id := range []string{"sea/shea", "sea/coconut", "sea/olive", "sea/castor", "sea/sodium hydroxide"} {
			if !rapid.Bool().Draw(r, id) {
				continue
			}
			task, _, _ := b.plan().Task(id)
			mass := quantity.FromGrams(task.Target.Grams() * rapid.Float64Range(0.8, 1.2).Draw(r, "weighed")).RoundTo(task.Reads)
			b.put(batch.Weighed{Task: id, Material: task.Material, Target: task.Target, Mass: mass, How: batch.Typed, Reads: task.Reads})
			if d, ok := deviationOf(b.plan(), id); ok && len(b.plan().Ways(d)) > 0 {
				b.put(rapid.SampledFrom(b.plan().Ways(d)).Draw(r, "way").Fact)
			}
		}
		sea := b.plan().Batters[0]
		sv := map[string]float64{"Olive oil": 190, "Coconut oil": 256.5, "Shea butter": 177.5, "Castor oil": 181.5}
		n, a := 0.0, 0.0
		for _, o := range sea.Oils {
			n += o.Mass.Grams() * sv[o.Name] / 1000
		}
		for _, k := range sea.Alkali {
			a += k.Mass.Grams() / naohPerKOH
		}
		if want := 100 * (1 - a/n); math.Abs(sea.Superfat.Percent-want) > 1e-3 {
			r.Errorf("superfat %.5f, by hand %.5f", sea.Superfat.Percent, want)
		}
	})
}

// TestBandBelowZero: the warning is said in words, holds the lye solution back
// until it is read, and is read once.
func TestBandBelowZero(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/sodium hydroxide")
	b.typed(t, "sea/sodium hydroxide", "187.0") // asked 179.1
	u := b.plan().Unread
	if len(u) != 1 || u[0].Batter != "sea" || !strings.Contains(u[0].Words, "pH") {
		t.Fatalf("%+v", u)
	}
	b.workTo(t, "sea/meet")
	if err := b.say("sea/meet", judge.Answer{}); err == nil || !strings.Contains(err.Error(), "below zero") {
		t.Errorf("they may meet unread: %v", err)
	}
	b.reads()
	b.workTo(t, "sea/combine")
	b.asked(t, "sea/combine")
	if f, _ := judge.Respond(u[0], u[0].Figure); judge.Allows(b.plan(), f, b.moment()) == nil {
		t.Error("read twice")
	}
}

// TestWhatIsInStaysIn: alkali that was added on an earlier decision counts, even
// when the first weight is corrected and decided upon anew; after the lye
// solution has met the oils it is dissolved by itself, before emulsion.
func TestWhatIsInStaysIn(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/sodium hydroxide")
	b.typed(t, "sea/sodium hydroxide", "169.1") // asked 179.1
	weighed := len(b.state.Entries)
	b.workTo(t, "sea/trace/emulsion")
	b.decide(t, "sea/sodium hydroxide", batch.Shortfall)
	b.workTo(t, "sea/sodium hydroxide/missing")
	if water := b.task(t, "sea/water/for sodium hydroxide/missing").Mass.Grams(); water < 10*0.478/0.522 {
		t.Errorf("%.1f g of water do not dissolve 10 g", water)
	}
	b.asked(t, "sea/sodium hydroxide/missing")
	before := b.plan().Batters[0].Superfat.Percent
	if math.Abs(before-5) > 0.06 {
		t.Errorf("superfat %.3f", before)
	}
	f, err := judge.Correct(b.plan(), b.state, weighed, "165.1", "misread")
	if err != nil {
		t.Fatal(err)
	}
	b.put(f)
	b.decide(t, "sea/sodium hydroxide", batch.CarryOn)
	want := 100 * (1 - (165.1+10)/naohPerKOH/koh(574.1, 382.8, 191.4, 127.6))
	if got := b.plan().Batters[0].Superfat.Percent; math.Abs(got-want) > 0.06 {
		t.Errorf("superfat %.3f, by hand %.3f", got, want)
	}
}

// TestTakeOut: what comes out again before it is mixed is as if it had never
// been in, and the pot check knows.
func TestTakeOut(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/water")
	asked := b.plan().Batters[0]
	b.typed(t, "sea/water", "403.6") // asked 363.6
	way := b.decide(t, "sea/water", batch.TakeOut)
	if way.Outcome.Rise >= 0 || math.Abs(way.Outcome.Strength-33) > 0.1 {
		t.Errorf("%+v", way.Outcome)
	}
	out := b.task(t, "sea/water/out")
	if out.Target != 40_000 || !out.Out || !out.Open {
		t.Errorf("%+v", out)
	}
	if f, err := b.plan().PotCheck("lye jug 1", 212_000+403_600); err != nil || !strings.HasPrefix(f.Words, "as it should be") {
		t.Errorf("before it is out: %q, %v", f.Words, err)
	}
	b.typed(t, "sea/water/out", "39.9")
	if f, err := b.plan().PotCheck("lye jug 1", 212_000+363_700); err != nil || !strings.HasPrefix(f.Words, "as it should be") {
		t.Errorf("once it is out: %q, %v", f.Words, err)
	}
	if sea := b.plan().Batters[0]; sea.Water.Mass != 363_700 || abs(sea.Mass-asked.Mass) > 200 {
		t.Errorf("%v of water, %v of batter after %v", sea.Water.Mass, sea.Mass, asked.Mass)
	}
	if err := b.work(never); err != nil {
		t.Error(err)
	}
}

// TestEverythingUp: water a tenth over, once the alkali is dissolved, brings the
// oils and the alkali up by a tenth; the lye concentration and the superfat are as
// stated again.
func TestEverythingUp(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/water")
	b.typed(t, "sea/water", "400.0") // asked 363.6: 10.0 % over
	b.workTo(t, "sea/lye jug/dissolved")
	way := b.decide(t, "sea/water", batch.InProportion)
	if got := b.task(t, "sea/olive").Target.Grams(); math.Abs(got-574.1*400/363.6) > 0.2 {
		t.Errorf("olive oil %.1f g", got)
	}
	if got := b.task(t, "sea/sodium hydroxide/top-up").Target.Grams(); math.Abs(got-179.1*(400/363.6-1)) > 0.1 {
		t.Errorf("sodium hydroxide, more: %.2f g", got)
	}
	b.workTo(t, "sea/combine")
	sea := b.plan().Batters[0]
	if math.Abs(sea.Superfat.Percent-5) > 0.1 || math.Abs(100*sea.Concentration-33) > 0.1 || way.Outcome.Rise <= 0 {
		t.Errorf("superfat %.2f %%, lye %.2f %%, %v higher", sea.Superfat.Percent, 100*sea.Concentration, way.Outcome.Rise)
	}
}

// TestWaterIntoTheBatter: water that is short once the lye solution is in goes into
// the batter before light trace.
func TestWaterIntoTheBatter(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/water")
	b.typed(t, "sea/water", "323.6") // asked 363.6
	b.workTo(t, "sea/trace/emulsion")
	b.decide(t, "sea/water", batch.AddMissing)
	task := b.task(t, "sea/water/missing")
	if _, st, _ := b.plan().Task(task.ID); st.ID != "trace/sea" || task.Target != 40_000 || !task.Open {
		t.Errorf("%s: %+v", st.ID, task)
	}
	before := b.plan().Batters[0].Mass
	b.typed(t, task.ID, "30")
	if got := b.plan().Batters[0].Mass; before-got != 10_000 {
		t.Errorf("%v less batter", before-got)
	}
}

// TestScentOverItsLimit: 120 g of a scent in 1,895 g of batter is 7.4 % of the
// bar once 15 % of it has dried out, and its limit is 5 %. It holds the bars until
// it is left in its cup; stirred in, for good.
func TestScentOverItsLimit(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/sea/harbour rope")
	b.typed(t, "sea/sea/harbour rope", "120")
	p := b.plan()
	if len(p.Holds) != 1 || p.Unread[0].Brief != "sea: scent over its limit in the cured bar" || p.Holds[0].Layer != "sea" || !strings.Contains(p.Holds[0].Words, "limit is 5 %") {
		t.Fatalf("%+v", p.Holds)
	}
	share := 100 * 120 / (0.85 * p.Layers[0].Mass.Grams())
	if want := fmt.Sprintf("%.2f %% of the cured bar", share); !strings.Contains(p.Holds[0].Words, want) {
		t.Errorf("%q, by hand %s", p.Holds[0].Words, want)
	}
	left := *b
	left.decide(t, "sea/sea/harbour rope", batch.TakeOut)
	if holds := left.plan().Holds; len(holds) != 0 {
		t.Errorf("left in its cup: %+v", holds)
	}
	b.decide(t, "sea/sea/harbour rope", batch.HoldBatch)
	b.workTo(t, "sea/sea/scent in")
	if err := b.say("sea/sea/scent in", judge.Answer{}); err == nil || !strings.Contains(err.Error(), "answer that warning first") {
		t.Errorf("stirred in unread: %v", err)
	}
	u := b.plan().Unread[0]
	for _, typed := range []string{"", "5", "5.00", "NaN", "-" + u.Figure, u.Figure + "9", "read"} {
		if f, err := judge.Respond(u, typed); err == nil || judge.Allows(b.plan(), f, b.moment()) == nil {
			t.Errorf("%q answers %+v", typed, u)
		}
	}
	f, err := judge.Respond(u, " "+fmt.Sprintf("%.2f", share)+" %")
	if err == nil {
		err = judge.Allows(b.plan(), f, b.moment())
	}
	if err != nil {
		t.Fatal(err)
	}
	b.put(stored(t, batch.Entry{Fact: f}).Fact)
	if said := say.Fact(b.state.Entries[len(b.state.Entries)-1], b.plan(), b.state); !strings.HasPrefix(said, fmt.Sprintf("read, and answered %.2f", share)) {
		t.Error(said)
	}
	if err := b.work(never); err != nil {
		t.Fatal(err)
	}
	if p := b.plan(); len(p.Holds) != 1 || len(p.Unread) != 0 {
		t.Errorf("%+v, %+v", p.Holds, p.Unread)
	}
}

// TestByEyeIsADeviation: what was not weighed is named with what it may be, and
// the oil that may be missing is offered.
func TestByEyeIsADeviation(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/olive")
	if err := b.say("sea/olive", judge.Answer{How: batch.ByEye}); err != nil {
		t.Fatal(err)
	}
	d, ok := deviationOf(b.plan(), "sea/olive")
	if !ok || !strings.Contains(d.Words, "517 to 632 g") {
		t.Errorf("%+v", d)
	}
	low := b.plan().Batters[0].Superfat.Low
	if way := b.decide(t, "sea/olive", batch.AddOil); way.Fact.Mass != 57_400 || way.Outcome.Superfat.Low <= low {
		t.Errorf("%+v after %.2f", way, low)
	}
}

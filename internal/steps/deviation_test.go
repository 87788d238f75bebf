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
	"bench/internal/work"
)

// The saponification values of the harbour's oils are the middles of published
// ranges (olive 190, coconut 256.5, shea 177.5, castor 181.5 mg KOH/g; see
// internal/oils/oils.csv), and a gram of KOH is 39.997/56.105 g of NaOH.
const naohPerKOH = 39.997 / 56.105

// koh is the alkali that oils take, in g of KOH, worked out here by hand.
func koh(olive, coconut, shea, castor float64) float64 {
	return (olive*190 + coconut*256.5 + shea*177.5 + castor*181.5) / 1000
}

// TestOilOver: 30 g of olive oil too much, weighed before the lye solution:
// alkali, water, colour and scent follow, and the superfat is as asked.
func TestOilOver(t *testing.T) {
	b := begin(harbour())
	b.finish(t, "set out")
	first := b.plan()
	for _, id := range []string{"sea/shea", "sea/coconut"} {
		b.asked(t, id)
	}
	b.typed(t, "sea/olive", "604.1") // asked 574.1
	b.asked(t, "sea/castor")

	p := b.plan()
	want := koh(604.1, 382.8, 191.4, 127.6) * 0.95 * naohPerKOH
	alkali := b.task(t, "sea/sodium hydroxide").Target.Grams()
	if math.Abs(alkali-want) > 0.051 {
		t.Errorf("alkali %.2f g, by hand %.3f g", alkali, want)
	}
	if water := b.task(t, "sea/water").Target.Grams(); math.Abs(water-alkali*0.67/0.33) > 0.051 {
		t.Errorf("water %.1f g for %.1f g of alkali", water, alkali)
	}
	oils := 604.1 + 382.8 + 191.4 + 127.6
	if got := b.task(t, "sea/sea/deep blue mica").Target.Grams(); math.Abs(got-0.004*oils) > 0.0051 {
		t.Errorf("mica %.2f g for %.1f g of oils", got, oils)
	}
	if got := b.task(t, "sea/sea/harbour rope").Target.Grams(); math.Abs(got-0.03*oils) > 0.0051 {
		t.Errorf("scent %.2f g for %.1f g of oils", got, oils)
	}
	if p.Layers[0].Mass <= first.Layers[0].Mass || p.Layers[0].Loaves[0].Surface <= first.Layers[0].Loaves[0].Surface {
		t.Error("more batter does not stand higher")
	}
	if dusk := figuresOf(first).Batters[1]; !sameBatter(figuresOf(p).Batters[1], dusk) {
		t.Error("the other batter changed")
	}

	b.asked(t, "sea/water")
	b.asked(t, "sea/sodium hydroxide")
	if s := b.plan().Batters[0].Superfat.Percent; math.Abs(s-5) > 0.03 { // half a reading of 0.1 g in 183 g
		t.Errorf("superfat %.3f %%", s)
	}
}

func sameBatter(a, b steps.Batter) bool { return fmt.Sprint(a) == fmt.Sprint(b) }

// TestLyeFirstThenOilOver: the alkali is dissolved, so the superfat moves by
// what the extra oil withholds.
func TestLyeFirstThenOilOver(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/olive")
	b.typed(t, "sea/olive", "604.1")
	b.asked(t, "sea/castor")
	alkali := b.task(t, "sea/sodium hydroxide").Mass.Grams()
	want := 100 * (1 - alkali/naohPerKOH/koh(604.1, 382.8, 191.4, 127.6))
	if got := b.plan().Batters[0].Superfat.Percent; math.Abs(got-want) > 1e-6 || got < 6.5 {
		t.Errorf("superfat %.4f %%, by hand %.4f %%", got, want)
	}
	if got := b.task(t, "sea/sodium hydroxide").Target.Grams(); math.Abs(got-alkali) > 1e-9 {
		t.Errorf("what was asked of the alkali became %.2f g", got)
	}
}

// TestTooMuchAlkali: the superfat falls by hand's figure, the band with it, and
// the water follows what is in the jug.
func TestTooMuchAlkali(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/sodium hydroxide")
	before := b.plan().Batters[0].Superfat
	b.typed(t, "sea/sodium hydroxide", "199.1") // asked 179.1
	after := b.plan().Batters[0].Superfat
	fall := 100 * 20 / naohPerKOH / koh(574.1, 382.8, 191.4, 127.6)
	if got := before.Percent - after.Percent; math.Abs(got-fall) > 1e-6 {
		t.Errorf("the superfat fell by %.4f, by hand %.4f", got, fall)
	}
	for name, got := range map[string]float64{
		"low": before.Low - after.Low, "worst low": before.WorstLow - after.WorstLow,
	} {
		if math.Abs(got-fall) > 0.1*fall {
			t.Errorf("the %s end fell by %.3f, the superfat by %.3f", name, got, fall)
		}
	}
	if after.Low >= 0 {
		t.Errorf("20 g too much of 179 leaves a band above zero: %+v", after)
	}
	if c := b.plan().Batters[0].Concentration; math.Abs(c-199.1/(199.1+363.6)) > 1e-6 {
		t.Errorf("lye concentration %.4f", c)
	}
}

// TestSkippedOil: what is left out is not in the pot: the alkali follows, or
// the superfat does. Counting it would leave free alkali in the soap.
func TestSkippedOil(t *testing.T) {
	b := begin(harbour())
	b.finish(t, "set out")
	b.put(batch.Skipped{Task: "sea/castor", Reason: "none left"})
	task := b.task(t, "sea/castor")
	if !task.Done || task.Skipped != "none left" {
		t.Errorf("%+v", task)
	}
	want := koh(574.1, 382.8, 191.4, 0) * 0.95 * naohPerKOH
	if got := b.task(t, "sea/sodium hydroxide").Target.Grams(); math.Abs(got-want) > 0.051 {
		t.Errorf("alkali %.2f g, by hand %.2f g", got, want)
	}

	late := begin(harbour())
	late.workTo(t, "sea/castor")
	late.put(batch.Skipped{Task: "sea/castor", Reason: "none left"})
	want = 100 * (1 - 179.1/naohPerKOH/koh(574.1, 382.8, 191.4, 0))
	if got := late.plan().Batters[0].Superfat.Percent; math.Abs(got-want) > 1e-6 || got > 0 {
		t.Errorf("superfat %.3f %%, by hand %.3f %%", got, want)
	}
}

func abs(m quantity.Mass) quantity.Mass { return max(m, -m) }

// TestSeveralContainers: one oil out of two bottles and lots.
func TestSeveralContainers(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/olive")
	if err := b.say("sea/olive", judge.Answer{How: batch.Typed, Text: "200", More: true}); err != nil {
		t.Fatal(err)
	}
	task := b.task(t, "sea/olive")
	if task.Done || !task.Open || task.Mass != 200*g || task.Remaining() != 374_100 || task.Target != 574_100 {
		t.Errorf("%+v", task)
	}
	// What is in the pot: shea and coconut, and the 200 g.
	if want := 640*g + 191_400 + 382_800 + 200*g + 374_100; task.Untared() != want {
		t.Errorf("untared %v, want %v", task.Untared(), want)
	}
	if a := b.plan().Batters[0].Oils[2]; a.Known || a.Mass != 574_100 {
		t.Errorf("%+v", a)
	}
	b.asked(t, "sea/olive")
	if task = b.task(t, "sea/olive"); !task.Done || task.Mass != 574_100 {
		t.Errorf("%+v", task)
	}
}

// TestTargetFollowsBetweenContainers: the second container of alkali follows an
// oil that was corrected after the first.
func TestTargetFollowsBetweenContainers(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/sodium hydroxide")
	if err := b.say("sea/sodium hydroxide", judge.Answer{How: batch.Typed, Text: "100", More: true}); err != nil {
		t.Fatal(err)
	}
	b.typed(t, "sea/olive", "604.1")
	want := koh(604.1, 382.8, 191.4, 127.6) * 0.95 * naohPerKOH
	if got := b.task(t, "sea/sodium hydroxide"); math.Abs(got.Target.Grams()-want) > 0.051 {
		t.Errorf("%v, by hand %.2f g", got.Target, want)
	}
}

// TestByEye: legal, counted at its target, visible for good, and the band is
// wider for it.
func TestByEye(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/coconut")
	before := b.plan().Batters[0].Superfat
	if err := b.say("sea/coconut", judge.Answer{How: batch.ByEye}); err != nil {
		t.Fatal(err)
	}
	if err := b.work(never); err != nil {
		t.Fatal(err)
	}
	p := b.plan()
	task, _, _ := p.Task("sea/coconut")
	if a := p.Batters[0].Oils[1]; !task.ByEye || !a.ByEye || a.Mass != 382_800 {
		t.Errorf("%+v, %+v", task, a)
	}
	after := p.Batters[0].Superfat
	if math.Abs(after.Percent-before.Percent) > 1e-9 || after.Low >= before.Low || after.High <= before.High || after.WorstLow >= before.WorstLow {
		t.Errorf("%+v, was %+v", after, before)
	}
	said := false
	for _, e := range b.state.Entries {
		said = said || strings.Contains(say.Fact(e, p, b.state), "by eye, not weighed")
	}
	if !said {
		t.Error("the record does not say it")
	}
}

// TestGate: both readings and what they give together, which lies between them
// and below the melting point gets a word.
func TestGate(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/lye temperature")
	b.typed(t, "sea/lye temperature", "28")
	b.typed(t, "sea/oil temperature", "52")
	meet := b.task(t, "sea/meet")
	// 1275.9 g of oils at 2.0 J/(g K), 542.7 g of lye solution at about 3.5.
	mix := (1275.9*2.0*52 + 542.7*3.5*28) / (1275.9*2.0 + 542.7*3.5)
	var said float64
	if _, err := fmt.Sscanf(meet.Title, "Together they give %f °C", &said); err != nil || math.Abs(said-mix) > 0.5 {
		t.Errorf("%q, by hand about %.1f °C", meet.Title, mix)
	}
	if !strings.Contains(meet.Hint, "45 °C") || !strings.Contains(meet.Hint, "false trace") {
		t.Errorf("%q", meet.Hint)
	}
}

// finish does every task of a stage as asked.
func (b *bencher) finish(t *testing.T, stage string) {
	t.Helper()
	for {
		s, ok := b.plan().Stage(stage)
		if !ok || s.Done {
			return
		}
		at := slices.IndexFunc(s.Tasks, func(task work.Task) bool { return task.Open })
		if at < 0 {
			t.Fatalf("%s is stuck: %s", stage, s.Blocked)
		}
		b.asked(t, s.Tasks[at].ID)
	}
}

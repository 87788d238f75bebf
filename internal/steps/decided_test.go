package steps_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"bench/internal/batch"
	"bench/internal/calc"
	"bench/internal/judge"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/steps"
	"bench/internal/work"
)

// correct gives the last fact of a task another value.
func (b *bencher) correct(t testing.TB, task, text string) {
	t.Helper()
	seq := 0
	for _, e := range b.state.Entries {
		if batch.Task(e.Fact) == task {
			if _, weighed := e.Fact.(batch.Weighed); weighed {
				seq = e.Seq
			}
		}
	}
	f, err := judge.Correct(b.plan(), b.state, seq, text, "misread")
	if err == nil {
		err = judge.Allows(b.plan(), f, b.moment())
	}
	if err != nil {
		t.Fatalf("%s, %s: %v", task, text, err)
	}
	b.put(f)
}

// askedAnew lists what is still to be weighed on decisions, with how much.
func askedAnew(p steps.Plan) string {
	var list []string
	for _, st := range p.Stages {
		for _, t := range st.Tasks {
			if t.Do == work.Weigh && !t.Done && onDecision(t) {
				list = append(list, fmt.Sprintf("%s %s", t.ID, t.Remaining().At(t.Reads)))
			}
		}
	}
	return strings.Join(list, ", ")
}

// onDecision says that a weighing stands in the plan because of a decision.
func onDecision(t work.Task) bool {
	return strings.HasSuffix(t.Title, ", more") || strings.HasSuffix(t.Title, ", out again") || strings.HasSuffix(t.Title, ", the missing part")
}

// openOff lists the weights that are off, with how far.
func openOff(p steps.Plan) string {
	var list []string
	for _, d := range p.Deviations {
		list = append(list, fmt.Sprintf("%s %s", d.Task, d.Off.At(g/10)))
	}
	return strings.Join(list, ", ")
}

// TestCorrectedAfterADecision: shea butter is in (asked 191.4 g), and coconut oil
// (asked 382.8 g) is typed wrong and decided upon. What a correction then
// mends is closed and asks for nothing; what it leaves is asked about as it now is;
// what was weighed meanwhile is in and counts.
func TestCorrectedAfterADecision(t *testing.T) {
	const shea, coconut = "sea/shea", "sea/coconut"
	for name, c := range map[string]struct {
		typed     string
		way       batch.Way
		weighed   string // weighed is the task that the decision asks for, when it is weighed before the correction.
		corrected string
		off, asks string
	}{
		"mended":                       {"421.1", batch.InProportion, "", "382.8", "", ""},
		"mended within tolerance":      {"421.1", batch.InProportion, "", "383.2", "", ""},
		"a little over, none decided":  {"421.1", batch.InProportion, "", "385.0", coconut + " 2.2", ""},
		"as it was decided":            {"421.1", batch.InProportion, "", "420.9", "", "sea/shea/top-up 19.05"},
		"top-up in, then mended":       {"421.1", batch.InProportion, shea + "/top-up", "382.8", shea + " 19.2", ""},
		"missing, then mended":         {"352.8", batch.AddOil, "", "382.8", "", ""},
		"missing, then less missing":   {"352.8", batch.AddOil, "", "372.8", coconut + " -10.0", ""},
		"missing in, then mended":      {"352.8", batch.AddOil, "sea/coconut/for coconut", "382.8", coconut + " 30.0", ""},
		"missing in, then a bit less":  {"352.8", batch.AddOil, "sea/coconut/for coconut", "352.4", "", ""},
		"missing in, more is missing":  {"352.8", batch.AddOil, "sea/coconut/for coconut", "342.8", coconut + " -10.0", ""},
		"carried on, corrected little": {"421.1", batch.CarryOn, "", "421.4", "", ""},
		"carried on, corrected much":   {"421.1", batch.CarryOn, "", "411.1", coconut + " 28.3", ""},
	} {
		t.Run(name, func(t *testing.T) {
			b := begin(harbour())
			b.finish(t, "set out")
			b.asked(t, shea)
			b.typed(t, coconut, c.typed)
			b.decide(t, coconut, c.way)
			if c.weighed != "" {
				b.asked(t, c.weighed)
			}
			b.correct(t, coconut, c.corrected)
			if got := openOff(b.plan()); got != c.off {
				t.Errorf("off: %q, want %q", got, c.off)
			}
			if got := askedAnew(b.plan()); got != c.asks {
				t.Errorf("asks %q, want %q", got, c.asks)
			}
			for _, d := range b.plan().Deviations {
				if more := b.task(t, d.Task).Mass; c.weighed != "" && !strings.Contains(d.Words, ", weighed "+more.At(g/10)+" and ") {
					t.Errorf("%q says nothing of what came in on the decision", d.Words)
				}
				way := b.plan().Ways(d)[0]
				b.put(way.Fact)
			}
			if got := openOff(b.plan()); got != "" {
				t.Errorf("still open once decided: %q", got)
			}
		})
	}
}

// TestWhatIsInIsNotAskedAgain: 30 g of shea butter that were missing came in; then
// everything is brought up by a tenth, and of the shea butter a tenth is asked.
func TestWhatIsInIsNotAskedAgain(t *testing.T) {
	b := begin(harbour())
	b.finish(t, "set out")
	b.typed(t, "sea/shea", "161.4") // asked 191.4
	b.decide(t, "sea/shea", batch.AddOil)
	b.asked(t, "sea/shea/for shea")
	b.typed(t, "sea/coconut", "421.1") // asked 382.8: 10.0 % over
	b.decide(t, "sea/coconut", batch.InProportion)
	if got := b.task(t, "sea/shea/top-up").Target.Grams(); math.Abs(got-191.4*(421.1/382.8-1)) > 0.1 {
		t.Errorf("shea butter, more: %.2f g", got)
	}
}

// TestNoTriflesAreAsked: coconut oil 2.2 g over asks for 1.1 g more of the shea
// butter, which is no more than its weighing may be off: it is left as it is.
func TestNoTriflesAreAsked(t *testing.T) {
	b := begin(harbour())
	b.finish(t, "set out")
	b.asked(t, "sea/shea")
	b.typed(t, "sea/coconut", "385.0") // asked 382.8
	b.decide(t, "sea/coconut", batch.InProportion)
	if got := askedAnew(b.plan()); got != "" {
		t.Errorf("asks %q", got)
	}
}

// TestAsksAreWorthWeighing: whatever is weighed, decided and corrected, what is
// asked for on top can be told from nothing: it is more than its scale reads to and
// more than it may be off. No weight within its tolerance is off.
func TestAsksAreWorthWeighing(t *testing.T) {
	t.Parallel()

	designs := designs(t)
	rapid.Check(t, func(r *rapid.T) {
		b := begin(designs[rapid.SampledFrom([]string{"harbour", "one big scale", "lighthouse"}).Draw(r, "design")](1))
		b.finish(t, "set out")
		for range rapid.IntRange(3, 10).Draw(r, "steps") {
			p := b.plan()
			if len(p.Deviations) > 0 && rapid.Bool().Draw(r, "decide") {
				list := p.Ways(p.Deviations[0])
				if len(list) > 0 {
					b.put(list[rapid.IntRange(0, len(list)-1).Draw(r, "way")].Fact)
				}
				continue
			}
			if n := rapid.IntRange(0, len(b.state.Entries)-1).Draw(r, "correct"); n%2 == 0 {
				if w, ok := b.state.Entries[n].Fact.(batch.Weighed); ok {
					b.correct(t, w.Task, max(w.Reads, w.Target+quantity.Mass(rapid.IntRange(-30, 30).Draw(r, "corrected"))*w.Reads).At(w.Reads))
				}
				continue
			}
			id, ok := p.Next(b.moment())
			if !ok {
				break
			}
			a := asAsked(b.task(t, id))
			if task := b.task(t, id); task.Do == work.Weigh {
				off := quantity.Mass(rapid.IntRange(-30, 30).Draw(r, "off")) * task.Reads
				a = judge.Answer{How: batch.Typed, Text: max(task.Reads, task.Target+off).At(task.Reads)}
			}
			if b.say(id, a) != nil { // What is refused changes nothing.
				break
			}
		}
		p := b.plan()
		for _, st := range p.Stages {
			for _, task := range st.Tasks {
				if task.Do == work.Weigh && !task.Done && onDecision(task) && (task.Target <= task.Reads || task.Target <= task.Tolerance) {
					r.Errorf("%s: asks for %v ± %v by %v", task.ID, task.Target, task.Tolerance, task.Reads)
				}
			}
		}
		for _, d := range p.Deviations {
			if task, _, _ := p.Task(d.Task); !task.ByEye && max(d.Off, -d.Off) <= task.Tolerance {
				r.Errorf("%s: %v is off, and ± %v are allowed", d.Task, d.Off, task.Tolerance)
			}
		}
	})
}

// TestToleranceIsNoFinerThanTheScale: a net weight is two readings, each open by half
// of what the scale reads to (calc.Weighed): nobody is asked about one reading more
// or less, such as one bead of hydroxide.
func TestToleranceIsNoFinerThanTheScale(t *testing.T) {
	c := harbour()
	c.Recipe.Layers[0].Surface, c.Recipe.Layers[1].Surface = 6*mm, 12*mm // About 40 g of hydroxide each.
	c.Recipe.Layers[0].Embeds = nil
	c.Scales = []recipe.Scale{{Name: "bench scale", Reads: g / 10, Max: 3_000 * g}}
	for _, reading := range []quantity.Mass{-1, 1} {
		b := begin(c)
		b.workTo(t, "sea/sodium hydroxide")
		asked := b.task(t, "sea/sodium hydroxide").Target
		if asked < 30*g || asked > 50*g {
			t.Fatalf("asked %v", asked)
		}
		b.typed(t, "sea/sodium hydroxide", (asked + reading*g/10).At(g/10))
		if got := openOff(b.plan()); got != "" {
			t.Errorf("off: %q", got)
		}
	}
}

// TestConcentrationOfAllThatWasWeighed: alkali over all alkali and all water, by hand,
// whether what was missing came into the jug or into the batter.
func TestConcentrationOfAllThatWasWeighed(t *testing.T) {
	for name, c := range map[string]struct {
		until string // until is where it is decided to bring in what is missing.
		more  string
	}{
		"into the jug":    {"sea/sodium hydroxide", "sea/water/missing"},
		"into the batter": {"sea/trace/emulsion", "sea/water/missing"},
	} {
		t.Run(name, func(t *testing.T) {
			b := begin(harbour())
			b.workTo(t, "sea/water")
			b.typed(t, "sea/water", "343.6") // asked 363.6
			b.workTo(t, c.until)
			b.decide(t, "sea/water", batch.AddMissing)
			b.typed(t, c.more, "19.5")
			if !b.task(t, "sea/sodium hydroxide").Done {
				b.asked(t, "sea/sodium hydroxide")
			}
			alkali := b.task(t, "sea/sodium hydroxide").Mass.Grams()
			if got, want := b.plan().Batters[0].Concentration, alkali/(alkali+343.6+19.5); math.Abs(got-want) > 1e-6 {
				t.Errorf("%.4f, by hand %.4f", got, want)
			}
		})
	}
}

// TestConcentrationOfEarlyAlkali: alkali that was missing and is dissolved in the jug
// counts, and the read-back names all of it.
func TestConcentrationOfEarlyAlkali(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/sodium hydroxide")
	b.typed(t, "sea/sodium hydroxide", "170.0") // asked 179.1
	b.workTo(t, "sea/lye jug/dissolved")
	b.decide(t, "sea/sodium hydroxide", batch.Shortfall)
	b.workTo(t, "lye/sea/read back")
	more := b.task(t, "sea/sodium hydroxide/missing").Mass
	want := calc.LyeConcentration(b.task(t, "sea/water").Mass.Grams(), 170+more.Grams())
	if got := b.plan().Batters[0].Concentration; math.Abs(got-want) > 1e-6 || more < 8*g {
		t.Errorf("%.4f with %v more, by hand %.4f", got, more, want)
	}
	b.asked(t, "lye/sea/read back")
	st, _ := b.plan().Stage("lye/sea")
	if said := fmt.Sprintf("sodium hydroxide %s g", (170*g + more).At(g/10)); !strings.HasPrefix(st.ReadBack, said) {
		t.Errorf("%q does not begin with %q", st.ReadBack, said)
	}
}

// TestABeadAsksForNoOil: one reading too much of about 40 g of hydroxide is within what
// the scales leave open, and bars made anew need no oil for it; half a gram is not.
func TestABeadAsksForNoOil(t *testing.T) {
	for over, asks := range map[quantity.Mass]bool{g / 10: false, g / 2: true} {
		c := harbour()
		c.Recipe.Layers[0].Surface, c.Recipe.Layers[1].Surface = 6*mm, 12*mm
		c.Recipe.Layers[0].Embeds = nil
		c.Scales = []recipe.Scale{{Name: "bench scale", Reads: g / 10, Max: 3_000 * g}}
		b := begin(c)
		b.workTo(t, "sea/sodium hydroxide")
		b.typed(t, "sea/sodium hydroxide", (b.task(t, "sea/sodium hydroxide").Target + over).At(g/10))
		b.workTo(t, "sea/combine")
		if got := strings.Contains(b.plan().Anew(), "All of sea would take"); got != asks {
			t.Errorf("%v too much: %q", over, b.plan().Anew())
		}
	}
}

// TestMuchOilWantsAJug: oil that is added by the pound is not weighed into a cup (common
// practice, no source), and the one that was taken is not asked for again.
func TestMuchOilWantsAJug(t *testing.T) {
	hints := func(b *bencher) (into, hint string) {
		for _, st := range b.plan().Stages {
			for _, task := range st.Tasks {
				if task.Do == work.Weigh && !task.Done && onDecision(task) {
					into, hint = task.Vessel, hint+task.Hint
				}
			}
		}
		return into, hint
	}
	for _, c := range []struct {
		typed string
		jug   bool
	}{{"30", true}, {"352.8", false}} {
		b := begin(harbour())
		b.workTo(t, "sea/coconut")
		b.typed(t, "sea/coconut", c.typed)
		b.decide(t, "sea/coconut", batch.AddOil)
		into, hint := hints(b)
		if hint == "" || strings.Contains(hint, "take a jug") != c.jug {
			t.Errorf("%s weighed: into %s, %q", c.typed, into, hint)
		}
		b.put(batch.VesselReplaced{Vessel: into, By: "tall jug", Tare: 200 * g})
		if into, hint = hints(b); into != "tall jug" || strings.Contains(hint, "take a jug") {
			t.Errorf("%s weighed, another vessel taken: into %s, %q", c.typed, into, hint)
		}
	}
}

package steps_test

import (
	"math"
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/potcheck"
	"bench/internal/quantity"
	"bench/internal/solution"
)

const (
	seaJug  = "sea/lye jug"
	seaJug2 = "sea/lye jug/dissolved"
)

// TestJugIsWhatItWeighed: a jug that steam left 9.7 g lighter should weigh that at the
// pour, and whoever reads it then, or looks into the jug, is told of no fault; nor is who
// finds a little less. 754.7 g is 212.0 + 363.6 + 179.1.
func TestJugIsWhatItWeighed(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, seaJug2)
	b.typed(t, seaJug2, "745.0")
	if c := content(b, "lye jug 1"); c.Expected != 745*g {
		t.Errorf("a look expects %v", c.Expected)
	}
	b.workTo(t, seaJug)
	jug := b.task(t, seaJug)
	if jug.Target != 745*g || jug.Tolerance <= 0 {
		t.Errorf("the jug should weigh %v", jug.Target)
	}
	for typed, fault := range map[quantity.Mass]string{745 * g: "", 741 * g: "", 730 * g: "", 765 * g: "20.0 g heavier", 690 * g: "64.7 g lighter"} {
		f, err := b.plan().PotCheck("lye jug 1", typed)
		if err != nil || (fault == "") != f.AsExpected() {
			t.Errorf("%v: %q, %v", typed, f.Words, err)
		}
		if off := (typed - 745*g).Grams(); !f.AsExpected() && math.Abs(f.Difference-off) > 1e-6 {
			t.Errorf("%v: off by %.1f g", typed, f.Difference)
		}
		is := b.plan().With(batch.Grossed{Task: seaJug, Vessel: "lye jug 1", Gross: typed, Tare: 212 * g, Reads: g / 10}, b.moment())
		pour, _, _ := is.Task("sea/combine")
		if warned := strings.HasPrefix(pour.Hint, "! "); warned != (fault != "") || !strings.Contains(pour.Hint, fault) {
			t.Errorf("%v: %q, want %q", typed, pour.Hint, fault)
		}
	}
	if doubt := judge.Doubt(b.plan(), batch.Grossed{Task: seaJug, Gross: 745 * g, Tare: 212 * g}); doubt != "" {
		t.Error(doubt)
	}
}

// TestALookIntoTheJugIsItsLastWeight: at 745.0 g when it had dissolved, and at 741.2 g when
// somebody looked whether all is in: that is what it should weigh at the pour and at the
// next look. A look before anything is dissolved, one that found more than the facts
// tell, or less than steam leaves, as of another jug, and one that was taken back say
// nothing of that.
func TestALookIntoTheJugIsItsLastWeight(t *testing.T) {
	look := func(b *bencher, gross quantity.Mass) {
		f, err := b.plan().PotCheck("lye jug 1", gross)
		if err != nil {
			t.Fatal(err)
		}
		b.put(f.Fact)
	}
	b := begin(harbour())
	b.workTo(t, "sea/sodium hydroxide")
	look(b, content(b, "lye jug 1").Expected)
	b.workTo(t, seaJug2)
	if jug := b.task(t, seaJug2); jug.Target != 754_700 {
		t.Errorf("water alone was looked at, and the jug should weigh %v", jug.Target)
	}
	b.typed(t, seaJug2, "745.0")
	look(b, 741_200)
	if c := content(b, "lye jug 1"); c.Expected != 741_200 {
		t.Errorf("the next look expects %v", c.Expected)
	}
	b.workTo(t, seaJug)
	looked := *b
	look(b, 751*g)
	look(b, 600*g)
	if jug := b.task(t, seaJug); jug.Target != 741_200 {
		t.Errorf("the jug should weigh %v", jug.Target)
	}
	b.typed(t, seaJug, "741.0")
	if hint := b.task(t, "sea/combine").Hint; strings.HasPrefix(hint, "! ") {
		t.Error(hint)
	}
	for i, e := range looked.state.Entries {
		if f, ok := e.Fact.(batch.PotWeighed); ok && f.Gross == 741_200 {
			looked.put(batch.Withdrawn{Seq: i + 1})
			break
		}
	}
	if jug := looked.task(t, seaJug); jug.Target != 745*g {
		t.Errorf("the look was taken back, and the jug should weigh %v", jug.Target)
	}
}

// TestALookBeforeTheCupWentIn: water that waits in its cup for a small solution is not in
// the jug that is looked at meanwhile, and is not taken for what steam took.
func TestALookBeforeTheCupWentIn(t *testing.T) {
	b := oliveOver(t)
	b.workTo(t, "sea/sodium hydroxide/top-up") // Its water is weighed.
	f, err := b.plan().PotCheck("lye jug 1", content(b, "lye jug 1").Expected)
	if err != nil {
		t.Fatal(err)
	}
	before := b.task(t, seaJug2).Target
	b.put(f.Fact)
	if after := b.task(t, seaJug2).Target; (after - before).Abs() > g/10 {
		t.Errorf("the jug should weigh %v, and after a look at it without its cup %v", before, after)
	}
}

// TestSpilledLyeIsSaidAgain: a jug that was too light for steam once is so at the pour,
// too: it should weigh what it did, and alkali is missing all the same.
func TestSpilledLyeIsSaidAgain(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, seaJug2)
	b.typed(t, seaJug2, "690.0")
	b.workTo(t, seaJug)
	if jug := b.task(t, seaJug); jug.Target != 690*g {
		t.Errorf("the jug should weigh %v", jug.Target)
	}
	b.typed(t, seaJug, "689.8")
	if hint := b.task(t, "sea/combine").Hint; !strings.HasPrefix(hint, "! The jug is 64.9 g lighter than its facts") {
		t.Error(hint)
	}
}

// TestSteamAllowedFor: a jug that nobody weighed may be as much lighter as its heat can
// drive off, and no heavier. By hand, for 179.1 g of sodium hydroxide in 363.6 g of water
// in a room of 20 °C: the solution peaks near 118 °C, its boiling point, at a heat capacity
// near 3.3 J/(g·K); half of 542.7 · 3.3 · 98 J over 2257 J/g is 39 g, give or take a tenth
// for the heat capacity (the latent heat: steam tables, from memory).
func TestSteamAllowedFor(t *testing.T) {
	d := solution.Dissolving{NaOHGrams: 179.1, WaterGrams: 363.6, WaterC: 20, AlkaliC: 20}
	steam, err := d.MostSteam(20)
	if err != nil || math.Abs(steam-39) > 4 {
		t.Errorf("%.1f g, %v", steam, err)
	}
	for _, c := range []solution.Dissolving{{WaterGrams: 100}, {NaOHGrams: 100, WaterGrams: 10}} {
		if grams, err := c.MostSteam(20); err == nil || grams != 0 {
			t.Errorf("%.1f g of steam from %+v", grams, c)
		}
	}
	b := begin(harbour())
	b.workTo(t, seaJug2)
	jug := b.task(t, seaJug2)
	if all := (jug.Tolerance + jug.Loss).Grams(); math.Abs(all-steam) > 1 {
		t.Errorf("%.1f g may be lost, not %.1f g", all, steam)
	}
	for off, fine := range map[quantity.Mass]bool{0: true, -30 * g: true, -50 * g: false, 5 * g: false} {
		if f, err := b.plan().PotCheck("lye jug 1", jug.Target+off); err != nil || f.AsExpected() != fine {
			t.Errorf("%v off: %q, %v", off, f.Words, err)
		}
	}
}

// content finds what a vessel holds.
func content(b *bencher, vessel string) potcheck.Content {
	for _, c := range b.plan().Vessels() {
		if c.Vessel == vessel {
			return c
		}
	}
	return potcheck.Content{}
}

// TestTwoExpectationsOfAJugAreOneSentence: what went in is 20 g more than what was left after
// the steam, by the jug's last weight; a weight over both says so of both, or the refusal and
// what was shown while typing would contradict each other.
func TestTwoExpectationsOfAJugAreOneSentence(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, seaJug2)
	jug := b.task(t, seaJug2)
	b.put(batch.Grossed{Task: seaJug2, Vessel: jug.Vessel, Gross: jug.Target - 20*g, Tare: jug.Tare, Reads: jug.Reads})
	b.workTo(t, seaJug)
	heavy := batch.Grossed{Task: seaJug, Vessel: jug.Vessel, Gross: jug.Target + 30*g, Tare: jug.Tare, Reads: jug.Reads}
	b.refuses(t, heavy, "30.0 g more than went into lye jug 1, and 50.0 g more than is left after the steam. ")
}

// TestNoLyeThatNeverWas: a lye jug holds no more than went into it (conservation of mass).
// More is refused, at once and as a correction, and where an older batch has such a weight
// no more batter is planned than there is.
func TestNoLyeThatNeverWas(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, seaJug)
	jug := b.task(t, seaJug)
	over := func(m quantity.Mass) batch.Grossed {
		return batch.Grossed{Task: seaJug, Vessel: jug.Vessel, Gross: jug.Target + m, Tare: jug.Tare, Reads: jug.Reads}
	}
	if err := judge.Allows(b.plan(), over(jug.Tolerance), b.moment()); err != nil {
		t.Errorf("as far as the scales may be off: %v", err)
	}
	all := b.plan().Batters[0].Mass
	for _, m := range []quantity.Mass{jug.Tolerance + g, 36 * g, 80 * g} {
		err := judge.Allows(b.plan(), over(m), b.moment())
		if err == nil || !strings.Contains(err.Error(), "more than went into lye jug 1") {
			t.Errorf("%v too much: %v", m, err)
		}
	}
	for _, id := range []string{seaJug, seaJug2} {
		is := over(80 * g)
		is.Task = id
		p := b.plan().With(is, b.moment())
		if got := p.Layers[0].Mass; got > b.plan().Layers[0].Mass || p.Batters[0].Mass > all {
			t.Errorf("%s: %v of batter are planned, and %v went in", id, got, b.plan().Layers[0].Mass)
		}
	}
	b.asked(t, seaJug)
	wrong := batch.Corrected{Seq: len(b.state.Entries), Reason: "read again", With: over(80 * g)}
	if judge.Allows(b.plan(), wrong, b.moment()) == nil {
		t.Error("corrected to more than went in")
	}
}

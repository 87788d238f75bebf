package steps_test

import (
	"fmt"
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/recipe"
	"bench/internal/resume"
	"bench/internal/sample"
	"bench/internal/say"
	"bench/internal/steps"
	"bench/internal/uses"
	"bench/internal/work"
)

// spare is a vessel that no workshop has, with a tare that none of theirs has.
func spare(p steps.Plan, vessel string) batch.VesselReplaced {
	use, _ := p.Uses().Of(vessel)
	f := batch.VesselReplaced{Vessel: vessel, By: "spare", Tare: 317_400, Held: use.What}
	if use.Kind == recipe.Cup {
		f.Tare = 27_310
	}
	return f
}

// forgotten says where a plan still goes by a vessel that was replaced.
func forgotten(p steps.Plan, f batch.VesselReplaced) error {
	found := 0
	for _, st := range p.Stages {
		for _, t := range st.Tasks {
			switch {
			case t.Done || t.Skipped != "":
			case t.Vessel == f.Vessel || t.Into == f.Vessel:
				return fmt.Errorf("%s goes by %s", t.ID, f.Vessel)
			case t.Vessel == f.By && (t.Tare != f.Tare || !t.TareKnown):
				return fmt.Errorf("%s goes by a tare of %s", t.ID, t.Tare)
			case t.Vessel == f.By && t.Do == work.Weigh && !t.FromCup && t.Untared() != f.Tare+t.SoFar+t.Remaining():
				return fmt.Errorf("%s should read %s", t.ID, t.Untared())
			case t.Vessel == f.By || t.Into == f.By:
				found++
			case strings.Contains(t.Hint+t.Title, "Out of "+f.Vessel) || strings.Contains(t.Hint, "Into the "+f.Vessel):
				return fmt.Errorf("%s says %s%s", t.ID, t.Title, t.Hint)
			}
			if on, ok := resume.OnScale(p, t.ID); ok && on.Vessel == f.Vessel {
				return fmt.Errorf("%s stands on the scale for %s", on.Vessel, t.ID)
			}
		}
	}
	for _, c := range p.Vessels() {
		switch {
		case c.Vessel == f.Vessel || c.Vessel == f.By && c.Tare != f.Tare:
			return fmt.Errorf("%s is looked into, %s empty", c.Vessel, c.Tare)
		case c.Vessel == f.By:
			found++
		}
	}
	for _, l := range p.Layers {
		if l.LeftIn == f.Vessel || l.LeftIn == f.By && l.LeftReads != f.Tare+l.Left {
			return fmt.Errorf("%s is left with %s, which reads %s", l.LeftIn, l.Left, l.LeftReads)
		}
	}
	for _, o := range p.Occupies("A") {
		if o.Vessel == f.Vessel {
			return fmt.Errorf("%s still holds %s", o.Vessel, o.What)
		}
	}
	if found == 0 {
		return fmt.Errorf("nothing goes by %s", f.By)
	}
	return nil
}

// TestReplacedIsForgotten: whichever vessel is replaced, and whenever, no target, no
// reading, no pot and no leftover goes by the one of the plan any more.
func TestReplacedIsForgotten(t *testing.T) {
	for name, c := range map[string]struct {
		control recipe.Control
		stops   []string
		least   int
	}{
		"harbour":    {harbour(), []string{"set out/protection", "sea/dissolve", "sea/combine", "sea/sea/gross", "sea/sea/loaf 2", "dusk/coconut"}, 40},
		"one pot":    {sample.Control(t, "tide-lines.yaml", 3), []string{"set out/protection", "tide/combine", "tide/gross", "tide/low water/gross", "tide/low water/loaf 2"}, 20},
		"one mould":  {sample.Control(t, "wharf-puck.yaml", 1), []string{"set out/protection", "puck/combine"}, 4},
		"lighthouse": {sample.Control(t, "lighthouse-at-dusk.yaml", 1), []string{"sea/dissolve"}, 5},
	} {
		tried := 0
		for _, stop := range c.stops {
			b := begin(c.control)
			if _, _, ok := b.plan().Task(stop); !ok {
				t.Fatalf("%s: no task %s", name, stop)
			}
			b.workTo(t, stop)
			for _, u := range b.plan().Uses() {
				f := spare(b.plan(), u.Vessel)
				if err := judge.Allows(b.plan(), f, b.moment()); err != nil {
					if use, some := b.plan().Uses().Of(u.Vessel); some && !use.Drawn {
						t.Errorf("%s at %s: %s: %v", name, stop, u.Vessel, err)
					}
					continue
				}
				tried++
				if err := forgotten(b.plan().With(f, b.moment()), f); err != nil {
					t.Errorf("%s at %s: %s: %v", name, stop, u.Vessel, err)
				}
			}
		}
		if tried < c.least {
			t.Errorf("%s: %d vessels were replaced, and not %d", name, tried, c.least)
		}
	}
}

// TestReplacedToTheEnd: a batch is worked to its end with a vessel of each kind replaced,
// and what goes into the moulds is the same.
func TestReplacedToTheEnd(t *testing.T) {
	plain := begin(harbour())
	if err := plain.work(never); err != nil {
		t.Fatal(err)
	}
	for vessel, stop := range map[string]string{"pot 1": "sea/castor", "lye jug 2": "dusk/dissolve", "jug 2": "sea/sea/loaf 3", "cup 2": "set out/protection", "alkali cup": "sea/dissolve"} {
		b := begin(harbour())
		b.workTo(t, stop)
		f := spare(b.plan(), vessel)
		if err := judge.Allows(b.plan(), f, b.moment()); err != nil {
			t.Fatalf("%s: %v", vessel, err)
		}
		b.put(f)
		from := len(b.state.Entries)
		if err := b.work(never); err != nil {
			t.Fatalf("%s: %v", vessel, err)
		}
		for _, e := range b.state.Entries[from:] {
			switch w := e.Fact.(type) {
			case batch.Weighed:
				if w.Vessel == vessel || w.Vessel == f.By && w.Tare != f.Tare {
					t.Errorf("%s: %+v", vessel, w)
				}
			case batch.Grossed:
				if w.Vessel == vessel || w.Vessel == f.By && w.Tare != f.Tare {
					t.Errorf("%s: %+v", vessel, w)
				}
			default:
			}
		}
		for i, l := range b.plan().Layers {
			if was := plain.plan().Layers[i]; (l.Mass-was.Mass).Abs() > 2*g || l.Loaves[0].Face.Surface != was.Loaves[0].Face.Surface && (l.Surface-was.Surface) > mm/2 {
				t.Errorf("%s: %s is %s, %s high; %s, %s", vessel, l.Name, l.Mass, l.Surface, was.Mass, was.Surface)
			}
		}
	}
}

// TestReplacedHalfWay: what came from one container already stands in the vessel that was
// taken, and the scale reads by its tare for the next.
func TestReplacedHalfWay(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/olive")
	task := b.task(t, "sea/olive")
	if err := b.say("sea/olive", judge.Answer{How: batch.Typed, Text: "200", More: true}); err != nil {
		t.Fatal(err)
	}
	f := spare(b.plan(), "pot 1")
	b.put(f)
	half := b.task(t, "sea/olive")
	if half.Vessel != "spare" || half.Tare != f.Tare || half.Untared() != f.Tare+task.SoFar+task.Target {
		t.Errorf("%s, tare %s, reads %s", half.Vessel, half.Tare, half.Untared())
	}
	if on, _ := resume.OnScale(b.plan(), "sea/olive"); on.Gross != f.Tare+task.SoFar+200*g {
		t.Errorf("%+v", on)
	}
}

// TestReplacedLyeJug: a lye jug that was weighed is weighed again in another, by what
// went in and not by what the first weighed; and one whose lye is gone is left alone.
func TestReplacedLyeJug(t *testing.T) {
	const id = "sea/lye jug/dissolved"
	b := begin(harbour())
	b.workTo(t, id)
	was := b.task(t, id)
	b.typed(t, id, (was.Target - 4*g).At(was.Reads))
	f := spare(b.plan(), "lye jug 1")
	b.put(f)
	if is := b.task(t, id); is.Done || is.Target != was.Target-212*g+f.Tare || is.Vessel != "spare" {
		t.Errorf("%s: %s in %s, tare %s", id, is.Target, is.Vessel, is.Tare)
	}
	b.workTo(t, "sea/trace/light")
	before := b.plan().Batters[0].Mass
	b.put(batch.VesselReplaced{Vessel: "spare", By: "pail", Tare: 500 * g})
	if jug := b.task(t, "sea/lye jug"); !jug.Done || jug.Tare != f.Tare || b.plan().Batters[0].Mass != before {
		t.Errorf("its lye is in the oils: %+v", jug)
	}
}

// TestReplacedFollowers: what is decided to go in besides goes into the one that was taken.
func TestReplacedFollowers(t *testing.T) {
	short := begin(harbour())
	short.workTo(t, "sea/water")
	water := short.task(t, "sea/water")
	short.typed(t, "sea/water", (water.Target - 30*g).At(water.Reads))
	short.decide(t, "sea/water", batch.AddMissing)
	for _, c := range []struct {
		b      *bencher
		vessel string
	}{{oliveOver(t), "pot 1"}, {oliveOver(t), "lye jug 1"}, {short, "lye jug 1"}} {
		b, vessel := c.b, c.vessel
		f := spare(b.plan(), vessel)
		if err := judge.Allows(b.plan(), f, b.moment()); err != nil {
			t.Fatal(err)
		}
		b.put(f)
		if err := forgotten(b.plan(), f); err != nil {
			t.Error(err)
		}
		if err := b.work(never); err != nil {
			t.Error(err)
		}
	}
}

// TestReplacedSmallJug: what the workshop lacks for a small lye solution is named at the
// bench, and may be a lye jug; the scale reads by its tare.
func TestReplacedSmallJug(t *testing.T) {
	b := oliveOver(t)
	lacking := b.task(t, "sea/water/top-up").Vessel
	use, ok := b.plan().Uses().Of(lacking)
	need := b.task(t, "sea/water/top-up").Target + b.task(t, "sea/sodium hydroxide/top-up").Target
	if !ok || !use.Lye || use.Kind != recipe.LyeJug || (use.Load-need).Abs() > g {
		t.Fatalf("%s: %+v, for %s", lacking, use, need)
	}
	f, err := judge.Took(b.plan(), lacking, fmt.Sprintf("beaker 90.2 g, %.0f ml", 1.5*need.Grams()))
	if err == nil {
		err = judge.Allows(b.plan(), f, b.moment())
	}
	if err != nil {
		t.Fatal(err)
	}
	b.put(f)
	if err := forgotten(b.plan(), f); err != nil {
		t.Error(err)
	}
	water := b.task(t, "sea/water/top-up")
	if water.Vessel != "beaker" || water.Untared() != 90_200+water.Target || strings.Contains(water.Hint, "None of the workshop") {
		t.Errorf("%+v", water)
	}
	f, err = judge.Took(b.plan(), "lye jug 1", "Beaker") // It is known by now, with its brim.
	if err == nil {
		err = judge.Allows(b.plan(), f, b.moment())
	}
	if err == nil || !strings.Contains(err.Error(), " ml to the brim") {
		t.Errorf("all of the lye in a beaker: %v", err)
	}
	b.workTo(t, "sea/dissolve more")
	if o, _ := uses.Holds("beaker", b.plan().Occupies("A")); o.What != "the water for the sea lye" {
		t.Errorf("%+v", b.plan().Occupies("A"))
	}
}

// TestReplacedFull: what stands in a vessel is weighed again once it stands in another,
// and its net goes by the new tare.
func TestReplacedFull(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/sea/loaf 1")
	before := b.task(t, "sea/sea/gross")
	f := spare(b.plan(), "pot 1")
	b.put(f)
	again := b.task(t, "sea/sea/gross")
	if !before.Done || again.Done || !again.Open || b.task(t, "sea/sea/loaf 1").Open {
		t.Fatalf("%+v", again)
	}
	if got, want := again.Target-f.Tare, before.Target-640*g; (got - want).Abs() > g {
		t.Errorf("net %s, and it was %s", got, want)
	}
	b.asked(t, "sea/sea/gross")
	b.asked(t, "sea/sea/loaf 1")
	if w, _ := b.state.Gross("sea/sea/gross"); w.Fact.Vessel != "spare" || w.Fact.Tare != f.Tare {
		t.Errorf("%+v", w.Fact)
	}
	if err := judge.Allows(b.plan(), batch.VesselReplaced{Vessel: "spare", By: "pot 2", Tare: 655 * g}, b.moment()); err == nil || !strings.Contains(err.Error(), "take those weights back first") {
		t.Errorf("a portion was poured by its weight: %v", err)
	}
	// Later pots are not asked for again.
	b.workTo(t, "dusk/dusk/gross")
	if !b.task(t, "sea/sea/gross").Done {
		t.Error("what is poured was asked for again")
	}
}

// TestReplacedTareCorrected: a tare that was mistyped is corrected, and a whole weight
// that was taken with it follows; what was used is not taken back.
func TestReplacedTareCorrected(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/castor")
	b.put(batch.VesselReplaced{Vessel: "pot 1", By: "spare", Tare: 812 * g})
	seq := len(b.state.Entries)
	unused := b.plan().With(batch.Withdrawn{Seq: seq, Reason: "it was pot 1"}, b.moment())
	if next, _, _ := unused.Task("sea/castor"); next.Vessel != "pot 1" || next.Tare != 640*g {
		t.Errorf("taken back, and %s", next.Vessel)
	}
	if err := judge.Allows(b.plan(), batch.Withdrawn{Seq: seq, Reason: "it was pot 1"}, b.moment()); err != nil {
		t.Error(err)
	}
	b.workTo(t, "sea/sea/loaf 1")
	was := b.task(t, "sea/sea/gross")
	f, err := judge.Correct(b.plan(), b.state, seq, "821", "misread")
	if err == nil {
		err = judge.Allows(b.plan(), f, b.moment())
	}
	if err != nil {
		t.Fatal(err)
	}
	b.put(f)
	if is := b.task(t, "sea/sea/gross"); is.Mass != was.Mass || is.Tare != 821*g || was.Tare != 812*g {
		t.Errorf("gross %s, tare %s", is.Mass, is.Tare)
	}
	if said := say.Fact(b.state.Entries[was.Seq-1], steps.Of(b.state), b.state); !strings.Contains(said, "net "+(was.Mass-821*g).At(was.Reads)) {
		t.Errorf("said: %s", said)
	}
	if err := judge.Allows(b.plan(), batch.Withdrawn{Seq: seq, Reason: "it was pot 1"}, b.moment()); err == nil || !strings.Contains(err.Error(), "spare was used since") {
		t.Errorf("%v", err)
	}
	if _, err := judge.Correct(b.plan(), b.state, seq, "none", "?"); err == nil {
		t.Error("that is no weight")
	}
}

package steps_test

import (
	"math"
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/calc"
	"bench/internal/sample"
	"bench/internal/steps"
)

// The colours of a pot that feeds several layers are weighed and wetted before its
// lye solution, by what is planned; after the split each is held to what its
// layer really got. By hand: 3 g/kg of the oils.
func TestColoursOfASharedPotAreWettedFirst(t *testing.T) {
	c := sample.Control(t, "tide-lines.yaml", 3)
	b := begin(c)
	b.workTo(t, "tide/low water/ultramarine blue/cup")
	cup := b.task(t, "tide/low water/ultramarine blue/cup")
	closeTo(t, "planned", cup.Target.Grams(), 0.003*b.plan().Layers[0].Oils.Grams(), 0.01)
	if !strings.Contains(cup.Hint, "marked low water") || cup.Vessel == b.task(t, "tide/half tide/sea mica/cup").Vessel {
		t.Errorf("%+v", cup)
	}
	for _, task := range []string{"tide/combine", "tide/oil temperature"} {
		if b.task(t, task).Open {
			t.Errorf("%s is open before the colours are wetted", task)
		}
	}
	b.workTo(t, "tide/low water/part")
	part := b.task(t, "tide/low water/part")
	b.typed(t, part.ID, (part.StopAt - 90*g).At(part.Reads)) // a tenth more
	b.asked(t, "tide/half tide/part")
	b.asked(t, "tide/high water/part")
	in := b.task(t, "tide/low water/ultramarine blue")
	if ratio := in.Target.Grams() / cup.Target.Grams(); ratio < 1.09 || ratio > 1.11 || in.Vessel != cup.Vessel {
		t.Errorf("×%.3f of what is in the cup: %+v", ratio, in)
	}
	if off := (in.Target - cup.Target).At(in.Reads); !strings.Contains(in.Hint, "and "+off+" g more") {
		t.Errorf("want to add %s g: %q", off, in.Hint)
	}
	if other := b.task(t, "tide/half tide/sea mica"); !strings.Contains(other.Hint, "g, 0.13 g stays") {
		t.Error(other.Hint)
	} else if cup := b.task(t, "tide/half tide/sea mica/cup"); other.Stays() != cup.Mass-other.Target || !other.Wetted ||
		math.Abs(100*other.Target.Grams()/cup.Mass.Grams()-float64(other.Part())) > 0.5 {
		t.Errorf("%v of %v goes in, and is told as %d %%, %v stays", other.Target, cup.Mass, other.Part(), other.Stays())
	}
	if err := b.work(never); err != nil {
		t.Error(err)
	}
	set := b.task(t, "set out/ultramarine blue")
	if set.Target != cup.Target {
		t.Errorf("set out %s, and %s goes into the cup", set.Target, cup.Target)
	}
}

// A pot that came out as planned takes its colours as they stand in their cups.
func TestColoursAsPlannedAreAllOfTheCup(t *testing.T) {
	b := begin(sample.Control(t, "tide-lines.yaml", 3))
	b.workTo(t, "tide/low water/ultramarine blue")
	if task := b.task(t, "tide/low water/ultramarine blue"); !strings.HasPrefix(task.Hint, "All that is in the cup.") ||
		task.Target != b.task(t, "tide/low water/ultramarine blue/cup").Mass {
		t.Errorf("%+v", task)
	}
}

// A batch that was begun by the rules of version 1 goes on by them.
func TestAnOlderBatchColoursAfterTheSplit(t *testing.T) {
	c := sample.Control(t, "tide-lines.yaml", 3)
	c.PlanVersion = 1
	b := begin(c)
	b.workTo(t, "tide/low water/ultramarine blue")
	if _, _, ok := b.plan().Task("tide/low water/ultramarine blue/cup"); ok {
		t.Error("it is asked for cups that it never had")
	}
	if task := b.task(t, "tide/low water/ultramarine blue"); task.FromCup || !strings.HasPrefix(task.Hint, "Wet it") {
		t.Errorf("%+v", task)
	}
	if err := b.work(never); err != nil {
		t.Error(err)
	}
}

const wetted = "  - { name: mole blue, kind: colourant, lot: MU-2, oil: olive, oil share: 75 % }\n"

// A colour that is kept wetted, three quarters of it olive oil: that oil takes
// alkali, by hand at 190 mg/g (the middle of Codex CXS 33, from memory), less the
// superfat, and counts for the superfat, in a pot of its own and in a shared one.
func TestOilInAColourTakesAlkali(t *testing.T) {
	const oils = "batters:\n  - name: sea\n    oils: { olive: 70 %, coconut: 30 % }\n"
	colour := func(rate string) string {
		return "colours: [{ material: mole blue, rate: " + rate + " }]"
	}
	for name, layers := range map[string]string{
		"one layer": "layers:\n  - { name: base, surface: 50 mm, COLOUR }\n",
		"shared":    "layers:\n  - { name: base, surface: 25 mm, COLOUR }\n  - { name: top, surface: 50 mm, COLOUR }\n",
	} {
		plan := func(rate string) steps.Plan {
			doc := oils + strings.ReplaceAll(layers, "COLOUR", colour(rate))
			return steps.Of(batch.State{Control: written(t, wetted, doc, 1)})
		}
		much, none := plan("40 g/kg"), plan("0.001 g/kg")
		brought := 0.0
		for _, l := range much.Layers {
			brought += 0.75 * l.Colours[0].Mass.Grams()
		}
		got, was := much.Batters[0], none.Batters[0]
		more := got.Alkali[0].Mass.Grams() - was.Alkali[0].Mass.Grams()*oilsOf(got)/oilsOf(was)
		closeTo(t, name+": more alkali", more, brought*0.190*0.95*calc.MolarMassNaOH/calc.MolarMassKOH, 0.15)
		closeTo(t, name+": superfat", got.Superfat.Percent, 5, 0.06)
		olive := got.Account.Oils[0].Grams.Nominal + got.Account.Oils[1].Grams.Nominal
		closeTo(t, name+": oils that count", olive, oilsOf(got)+brought, 0.01)
	}
}

func oilsOf(b steps.Batter) float64 {
	sum := 0.0
	for _, o := range b.Oils {
		sum += o.Mass.Grams()
	}
	return sum
}

// TestACupOfColourIsNotHurried: a colour out of its cup is stirred in until no streak
// shows; only a scent is poured at once.
func TestACupOfColourIsNotHurried(t *testing.T) {
	p := steps.Of(batch.State{Control: sample.Control(t, "tide-lines.yaml", 3)})
	task, _, ok := p.Task("tide/low water/ultramarine blue")
	if !ok || !strings.HasSuffix(task.Hint, "All that is in the cup. Stir it in until no streak shows.") {
		t.Errorf("%q", task.Hint)
	}
}

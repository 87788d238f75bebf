package ui

import (
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/memory"
	"bench/internal/quantity"
)

// overweighs weighs the first alkali a tenth over, twice alike.
func (p *person) overweighs() *person {
	p.t.Helper()
	p.starts().works("sea/sodium hydroxide")
	much := p.taskAtHand().Target * 11 / 10
	before := len(p.store.Facts(p.m.bench.Code))
	for len(p.store.Facts(p.m.bench.Code)) == before {
		p.types(much.At(tenthOfAGram)).press("enter")
	}
	return p
}

// overpours pours 30 g more than asked into the jug of the first loaf.
func (p *person) overpours() *person {
	p.t.Helper()
	p.starts().works("sea/base/loaf 1")
	return p.types((p.taskAtHand().StopAt - 30*quantity.Gram).At(tenthOfAGram)).press("enter")
}

// TestPouredBackAtTheBench: a portion that was poured over is named with the key to its
// ways, the way that is taken is the next weighing, and a figure that was doubted on the
// way is not asked for there.
func TestPouredBackAtTheBench(t *testing.T) {
	p := arrives(t, memory.New()).overpours().sees("30.0 g over (asked 367.2)", "d: how to go on")
	p.types("1436.3").press("enter").sees("type it again")
	p.press("d").sees("Leave it: the portions to come", "stays", "height   29 to 32 mm")
	p.press("enter").sees("Pour back into large pot", "Out of jug 1")
	if text := p.m.View(); strings.Contains(text, "again") {
		t.Errorf("another figure is asked for again:\n%s", text)
	}
	p.press("space").sees("Portion for loaf 2", "367.2")
	if len(p.m.bench.Plan.Deviations) > 0 {
		t.Errorf("%+v", p.m.bench.Plan.Deviations)
	}
}

// TestPourOnlyPart follows too much alkali from the warning to the part that is
// poured, with the superfat as stated in the end.
func TestPourOnlyPart(t *testing.T) {
	p := arrives(t, memory.New()).overweighs().sees("band reaches below zero", "d: how to go on")
	n := len(p.store.Facts("26K25A"))
	p.press("d").sees("1 of 2", "Pour only part").seesNot("how many per cent").press("down").sees("2 of 2", "alkali cannot be ruled out", "pH", "how many per cent below zero").press("enter", "enter").recorded(n)
	p.types(p.m.bench.Plan.Unread[0].Figure).press("enter").recorded(n+1).sees("over (asked", "d: how to go on")
	if w, ok := p.last().(batch.WarningSeen); !ok || w.Batter != "sea" {
		t.Errorf("kept %+v", p.last())
	}
	p.press("d").sees("Pour only part", "Add ", "superfat", "until it is poured").seesNot("Carry on")
	p.press("right", "right", "left", "enter").recorded(n + 2).seesNot("how to go on")
	if d, ok := p.last().(batch.Decided); !ok || d.Way != batch.PourPart {
		t.Errorf("kept %+v", p.last())
	}
	p.works("sea/lye part").sees("Pour part of the sea lye solution", "stop at").works("sea/keep lye").sees("label the rest")
	f := p.m.bench.Plan.Batters[0]
	if off := f.Superfat.Percent - 100*f.Asked.Fraction(); off < -0.1 || off > 0.1 {
		t.Errorf("superfat %.2f, asked %v", f.Superfat.Percent, f.Asked)
	}
	p.works("").sees("Nothing to do just now")
}

// overscents weighs the first scent at four times what was asked, twice alike.
func (p *person) overscents() *person {
	p.t.Helper()
	p.starts()
	id := ""
	for _, l := range p.m.bench.Plan.Layers {
		if len(l.Scents) > 0 && id == "" {
			id = l.Scents[0].Task
		}
	}
	p.works(id)
	much := 4 * p.taskAtHand().Target
	for range 2 {
		p.types(much.At(tenthOfAGram)).press("enter")
	}
	return p
}

// TestScentChallenge: a scent over its limit is answered with the figure that it
// is over by, and with no key alone; what was typed is kept.
func TestScentChallenge(t *testing.T) {
	p := arrives(t, memory.New()).overscents().sees("scent over its limit", "d: how to go on")
	n := len(p.store.Facts("26K25A"))
	figure := p.m.bench.Plan.Unread[0].Figure
	p.press("d").sees("1 of 2").seesNot("Type how much") // What helps comes first.
	p.press("down").sees("of the cured bar, and its limit is", "Type how much of the cured bar")
	p.press("enter", "enter", "space", "enter").sees("Type how much").recorded(n)
	p.types("1.23").press("enter").sees("1.23 is not the figure").recorded(n)
	p.types("9").press("esc").sees("Type how much of the cured bar").types("99").press("backspace", "backspace")
	p.types(figure).press("enter").recorded(n + 1).seesNot("scent over its limit in")
	if w, ok := p.last().(batch.WarningSeen); !ok || w.Typed != figure || !strings.HasPrefix(w.Batter, "scent/") {
		t.Errorf("kept %+v", p.last())
	}
}

// TestDecideLater: esc leaves the choice open, and the work goes on meanwhile.
func TestDecideLater(t *testing.T) {
	p := arrives(t, memory.New()).overweighs()
	n := len(p.store.Facts("26K25A"))
	p.press("d", "esc").recorded(n).sees("how to go on").press("d", "right", "right", "enter").recorded(n + 1)
	if d, ok := p.last().(batch.Decided); !ok || d.Way != batch.AddOil || d.Mass <= 0 {
		t.Errorf("kept %+v", p.last())
	}
	p.works("sea/melt")
}

// TestNothingToDecide: d says so where all was within tolerance.
func TestNothingToDecide(t *testing.T) {
	arrives(t, memory.New()).starts().works("sea/olive").press("d").sees("no weight was off")
}

// TestWeighPotStory: the gross weight names what is missing, and is kept.
func TestWeighPotStory(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("sea/castor")
	n := len(p.store.Facts("26K25A"))
	var all, olive quantity.Mass
	for _, v := range p.m.bench.Plan.Vessels() {
		if v.Vessel == p.taskAtHand().Vessel {
			all = v.Expected
		}
	}
	for _, w := range p.m.bench.State.Weighings("sea/olive") {
		olive += w.Fact.Mass
	}
	p.press("w").sees("Weigh the pot").press("enter").sees("Type the whole weight").recorded(n)
	p.types((all - olive).At(tenthOfAGram)).press("enter").recorded(n + 1).sees("should be 1423.5): olive oil is")
	if f, ok := p.last().(batch.PotWeighed); !ok || !strings.Contains(f.Finding, "olive oil") || f.Expected != all {
		t.Errorf("kept %+v", p.last())
	}
	p.press("w", "esc").recorded(n + 1).sees("castor oil")
}

// TestALookIsAnswered: what the weight of the pot showed holds the lye, stands on the bench
// until it is answered, and is answered beside the ways: by weighing it again, by what is
// missing, or with a reason.
func TestALookIsAnswered(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("sea/combine")
	var pot, olive quantity.Mass
	for _, v := range p.m.bench.Plan.Vessels() {
		if v.Vessel == "large pot" {
			pot = v.Expected
		}
	}
	olive, _ = p.m.bench.State.Mass("sea/olive")
	short := (pot - olive).At(quantity.Gram)
	p.press("w").types(short).press("enter").sees("short", "olive oil is", "d how to go on")
	n := len(p.store.Facts("26K25A"))
	p.press("space").sees("The lye waits").recorded(n)
	p.press("d").sees("Weigh large pot", "is not in", "say how you know").press("right", "right", "right", "enter").sees("How do you know?")
	p.press("enter").sees("Say how you know").press("esc").recorded(n)
	p.press("d").press("enter").sees("Weigh the pot").types(pot.At(quantity.Gram)).press("enter").recorded(n + 1).seesNot("how to go on")
	p.press("space").recorded(n + 2)
}

package ui

import (
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/quantity"
)

// overweighs weighs the first alkali a tenth over, twice alike.
func (p *person) overweighs() *person {
	p.t.Helper()
	p.starts().works("sea/sodium hydroxide")
	much := p.taskAtHand().Target * 11 / 10
	before := len(p.store.facts(p.m.bench.Code))
	for len(p.store.facts(p.m.bench.Code)) == before {
		p.types(much.At(tenthOfAGram)).press("enter")
	}
	return p
}

// TestPourOnlyPart follows too much alkali from the warning to the part that is
// poured, with the superfat as stated in the end.
func TestPourOnlyPart(t *testing.T) {
	p := arrives(t, newMemory()).overweighs().sees("band reaches below zero", "d: how to go on")
	n := len(p.store.facts("26K25A"))
	p.press("d").sees("1 of 2", "alkali cannot be ruled out", "pH").press("enter").sees("enter again").recorded(n)
	p.press("enter").recorded(n+1).sees("over (asked", "d: how to go on")
	if w, ok := p.last().(batch.WarningSeen); !ok || w.Batter != "sea" {
		t.Errorf("kept %+v", p.last())
	}
	p.press("d").sees("Pour only part", "Add ", "superfat", "until it is poured").seesNot("Carry on")
	p.press("right", "left", "enter").recorded(n + 2).seesNot("how to go on")
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

// TestDecideLater: esc leaves the choice open, and the work goes on meanwhile.
func TestDecideLater(t *testing.T) {
	p := arrives(t, newMemory()).overweighs()
	n := len(p.store.facts("26K25A"))
	p.press("d", "esc").recorded(n).sees("how to go on").press("d", "down", "right", "enter").recorded(n + 1)
	if d, ok := p.last().(batch.Decided); !ok || d.Way != batch.AddOil || d.Mass <= 0 {
		t.Errorf("kept %+v", p.last())
	}
	p.works("sea/melt")
}

// TestNothingToDecide: d says so where all was within tolerance.
func TestNothingToDecide(t *testing.T) {
	arrives(t, newMemory()).starts().works("sea/olive").press("d").sees("no weight was off")
}

// TestWeighPotStory: the gross weight names what is missing, and is kept.
func TestWeighPotStory(t *testing.T) {
	p := arrives(t, newMemory()).starts().works("sea/castor")
	n := len(p.store.facts("26K25A"))
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

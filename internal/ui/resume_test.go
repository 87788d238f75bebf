package ui

import (
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/memory"
	"bench/internal/quantity"
	"bench/internal/ui/ink"
	"bench/internal/ui/intent"

	"pgregory.net/rapid"
)

// back opens a batch that was left while an oil was to be weighed.
func back(t *testing.T) *person {
	t.Helper()
	return arrives(t, memory.New()).starts().works("sea/olive").press("esc").waits(40 * time.Minute).press("enter").sees("Where you were")
}

// TestNothingIsTickedBeforeTheScaleIsConfirmed: after a break one key confirms
// what stands on the scale, and no other ticks, moves or leaves out.
func TestNothingIsTickedBeforeTheScaleIsConfirmed(t *testing.T) {
	p := back(t).sees("large pot, with what is in it", "untared")
	before := len(p.store.Facts("26K25A"))
	for _, key := range []string{"space", "b", "+", "x", "down", "right", "d", "t"} {
		p.press(key).recorded(before).sees("Where you were", "First: enter")
	}
	p.press("enter").recorded(before).seesNot("Where you were").press("space").recorded(before + 1)
}

// TestAnotherReadingAsksThePot: a reading that is not what should be there is held
// against the facts, and what is found is said and kept.
func TestAnotherReadingAsksThePot(t *testing.T) {
	p := back(t)
	before := len(p.store.Facts("26K25A"))
	p.types("865.0").sees("it reads").press("enter").recorded(before+1).sees("Where you were", "214.2 g short", "coconut oil")
	if f, ok := p.last().(batch.PotWeighed); !ok || f.Vessel != "large pot" || f.Gross != 865_000 {
		t.Errorf("kept %+v", p.last())
	}
	p.types("1079.2").press("enter").recorded(before + 2).seesNot("Where you were").sees("as it should be")
}

// TestInAlreadyLeadsOn: an oil that a reading finds in the pot without a fact is offered
// to be kept as the scale read it; until somebody answers, its task says to pour none.
func TestInAlreadyLeadsOn(t *testing.T) {
	p := back(t)
	before := len(p.store.Facts("26K25A"))
	p.types("1423.7").press("enter").recorded(before+1).sees("! olive oil is in already, by the weight of large pot:", "  344.5 g, asked 344.3. Pour none.", "enter keeps 344.5 g   x not in", "it read")
	p.press("space").recorded(before + 1)
	p.sized(40, 12).sees("olive oil is in already").sized(80, 24)
	p.press("esc").press("enter").sees("Where you were", "olive oil is in already") // Whatever comes between.
	p.press("x").recorded(before+1).seesNot("Where you were").sees("! olive oil is in already, by the weight of large", "pot: pour none, type 344.5")
	p.press("esc").waits(time.Hour).press("enter").sees("enter keeps 344.5 g").press("enter").recorded(before+2).seesNot("Where you were", "is in already")
	if w, ok := p.last().(batch.Weighed); !ok || w.Task != "sea/olive" || w.Mass != 344_500 || w.How != batch.Typed {
		t.Errorf("kept %+v", p.last())
	}
}

// TestPauseTakesEnterOnly: space does not tick a pause point, and enter ticks it
// once.
func TestPauseTakesEnterOnly(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("lye/sea/read back")
	before := len(p.store.Facts("26K25A"))
	p.press("space", "b", "+", "x").recorded(before).sees("Read back the sea lye solution")
	p.press("enter").recorded(before + 1).records(batch.Ticked{Task: "lye/sea/read back"})
	p.press("left").press("enter").recorded(before + 1)
}

// TestTypedPortionMovesTheOthers: while a portion is typed the others are shown as
// they would become, and nothing is kept.
func TestTypedPortionMovesTheOthers(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("sea/base/loaf 2").sees("367.1")
	before := len(p.store.Facts("26K25A"))
	p.types("1119.1").recorded(before).sees("347.2", "387.1").seesNot(" 367.1") // 20.0 g less into loaf 2 are 20.0 g more for loaf 3.
	p.press("esc").sees("367.1").seesNot("387.1")
}

// TestTakingBack takes a tick back with its reason; what was built on it is taken
// back first.
func TestTakingBack(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("sea/olive").press("u", "down", "x").sees("it was not so").types("not clear yet").press("enter")
	if w, ok := p.last().(batch.Withdrawn); !ok || w.Reason != "not clear yet" {
		t.Fatalf("kept %+v", p.last())
	}
	if p.task() != "sea/melt" {
		t.Errorf("at %s", p.task())
	}
	p.press("u").sees("taken back: ")
	before := len(p.store.Facts("26K25A"))
	p.press("up", "up", "up", "up", "up", "up", "up", "up", "up", "x").recorded(before).sees("take that back first")
}

// TestRecordOfAClosedBatchIsRead opens the record of a batch that was ended, and
// changes nothing in it.
func TestRecordOfAClosedBatchIsRead(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("sea/shea").press("e").types("abandon the pot seized").press("enter")
	for range p.m.bench.Plan.Standing() {
		if p.m.page == intent.PageAsk {
			p.types("emptied, by the safety data sheet").press("enter")
		}
	}
	p.sees("This batch is closed").seesNot("May be begun now")
	before := len(p.store.Facts("26K25A"))
	p.press("u").sees("Record of batch", "(enter the batch is ended)").press("up", "up", "enter").sees("its record stays as it is")
	p.press("x").recorded(before).sees("closed")
}

// TestOtherBatchInSight: what the other batch is at stands below the stages.
func TestOtherBatchInSight(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("dusk/shea").press("esc").press("down", "down", "enter", "enter")
	p.sees("tab 26K25A", "oils · dusk")
}

// TestEverySizeHolds: at any size no line is wider than the window and there are
// no more lines than it has; from the smallest size on the weight and its unit
// are in sight.
func TestEverySizeHolds(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("sea/olive")
	asked := "not tared"
	rapid.Check(t, func(r *rapid.T) {
		w, h := rapid.IntRange(40, 250).Draw(r, "w"), rapid.IntRange(12, 80).Draw(r, "h")
		p.sized(w, h)
		lines := p.m.lines(w, h)
		if len(lines) != h && !p.m.small() {
			r.Fatalf("%d lines of %d", len(lines), h)
		}
		view := p.m.View()
		for line := range strings.Lines(view) {
			if n := len([]rune(strings.TrimRight(line, "\n"))); n > w {
				r.Fatalf("a line of %d", n)
			}
		}
		if w >= 80 && h >= 24 && (!strings.Contains(view, asked) || !strings.Contains(view, "344.3") || !unitInSight(view)) {
			r.Fatalf("the weight is not in sight:\n%s", view)
		}
	})
}

// unitInSight says that the unit stands beside the figures, small or large.
func unitInSight(view string) bool {
	for scale := 1; scale < 3; scale++ {
		if large := ink.Big("g", scale); strings.Contains(view, large[len(large)-1]) {
			return true
		}
	}
	return strings.Contains(view, "  g")
}

// TestPouredButNotKept: a portion that was poured before the program was lost is not held to
// be missing lye or oil: that it is out is offered to be kept, and what was kept of the pot
// is what the reading is held against.
func TestPouredButNotKept(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("sea/base/gross")
	asked := p.taskAtHand().Target
	p.types((asked - 20*quantity.Gram).At(tenthOfAGram)).press("enter").works("sea/base/loaf 3")
	stop, before := p.taskAtHand().StopAt, len(p.store.Facts("26K25A"))
	p.press("esc").waits(40 * time.Minute).press("enter").sees("Where you were").types(stop.At(tenthOfAGram)).press("enter")
	p.recorded(before+1).sees("Portion for loaf 3: it is out already", "x not out").seesNot("not in,", "lye solution is")
	p.press("enter").recorded(before+2).seesNot("Where you were", "d how to go on")
	if w, ok := p.last().(batch.Weighed); !ok || w.Task != "sea/base/loaf 3" || w.Look == 0 {
		t.Errorf("kept %+v", p.last())
	}
}

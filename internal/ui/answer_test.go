package ui

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/memory"
	"bench/internal/quantity"
	"bench/internal/work"
)

// TestRefusedFigure holds a figure that is refused to staying, to be mended or typed
// over, and the words about a portion to the readings that were typed.
func TestRefusedFigure(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("sea/base/loaf 2")
	before := len(p.store.Facts("26K25A"))
	p.types("2000").press("enter").sees("Reads 2000.0, and before pouring it read 1466.3; stop at 1099.1.")
	p.types("100").sees("typed").press("enter").sees("Reads 100.0, and the empty vessel alone weighs 712.0").recorded(before)
	if p.m.bench.Typed != "100" {
		t.Errorf("%q stayed in the field", p.m.bench.Typed)
	}
	p.press("backspace").sees("keep 10 ").types("5").sees("keep 105")
	p.press("enter").sees("Reads 105.0")
	p.types("1300").press("enter").sees("! reads 1300.0; stop at 1099.1. Right?").recorded(before)
	p.types("1300").press("enter").recorded(before + 1)
	if w := p.last().(batch.Weighed); w.Mass != 166_300 {
		t.Errorf("kept %+v", w)
	}
}

// TestByEyeKeepsTheFigure holds a figure that was judged by eye to being kept as
// such, and to staying marked where the task is shown as done.
func TestByEyeKeepsTheFigure(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("sea/olive").types("34").press("b").sees("typed 34.0. Right?").types("340").press("b")
	if w := p.last().(batch.Weighed); w.How != batch.ByEye || w.Mass != 340_000 {
		t.Fatalf("kept %+v", w)
	}
	p.sees("by eye, of 344.3").press("b", "left").sees("340.0  by eye, of 344.3", "53.6  by eye")

	arrives(t, memory.New()).starts().works("sea/base/loaf 2").press("b").sees("by eye").types("735").press("b").sees("by eye")
}

// TestTemperatureAgain reads a temperature a second time while its gate is open.
func TestTemperatureAgain(t *testing.T) {
	p := arrives(t, memory.New()).starts()
	for p.taskAtHand().Do != work.Temperature {
		p.doesOne()
	}
	first := p.task()
	p.waits(40 * time.Minute).types("31").press("enter")
	if p.task() == first {
		t.Fatalf("still at %s", first)
	}
	p.press("up").sees("31 °C", "type what it reads now")
	if p.task() != first {
		t.Fatalf("went to %s, not back to %s", p.task(), first)
	}
	p.types("37").press("enter")
	if f, ok := p.last().(batch.TemperatureTaken); !ok || f.Task != first || f.Temperature.Celsius() != 37 {
		t.Errorf("kept %+v", p.last())
	}
}

// TestSpaceAfterAJump holds a space that follows at once on a change of stage to
// ticking nothing, and figures to being taken.
func TestSpaceAfterAJump(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("pour/base/read back").press("enter")
	before := len(p.store.Facts("26K25A"))
	if p.task() != "dusk/shea" {
		t.Fatalf("at %s", p.task())
	}
	p.waits(800 * time.Millisecond).gets(keyOf("space")).recorded(before).sees("another stage")
	p.waits(800 * time.Millisecond).gets(keyOf("space")).recorded(before + 1)

	p = arrives(t, memory.New()).starts().works("pour/base/read back").press("enter")
	p.types("126.7").press("enter")
	if w, ok := p.last().(batch.Weighed); !ok || w.Task != "dusk/shea" {
		t.Errorf("kept %+v", p.last())
	}
}

// TestHintsAreWhole walks through a batch in the smallest window and holds every
// hint to being shown to its last word.
func TestHintsAreWhole(t *testing.T) {
	p := arrives(t, memory.New()).starts()
	hints := 0
	for p.task() != "" {
		task := p.taskAtHand()
		var shown []string
		for _, l := range strings.Split(p.m.View(), "\n") {
			if _, middle, ok := strings.Cut(l, "│"); ok {
				shown = append(shown, middle)
			}
		}
		if text := strings.Join(strings.Fields(strings.Join(shown, " ")), " "); !strings.Contains(text, task.Hint) {
			t.Errorf("%s: the hint is cut: %q in\n%s", task.ID, task.Hint, strings.Join(shown, "\n"))
		}
		if task.Hint != "" {
			hints++
		}
		p.doesOne()
	}
	if hints < 20 {
		t.Errorf("only %d tasks had a hint", hints)
	}
}

// TestWarningsAreWhole holds a long doubt to being shown to its last word, and
// the big figures to staying.
func TestWarningsAreWhole(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("sea/lye jug").sees("type the whole weight, vessel included")
	p.types("440.0").press("enter").sees("! asked 478.8, typed 440.0: perhaps another vessel, or", "  not all is in it. Right? Then type it again.", "vessel included")
}

// TestMoreLyeThanWentIn: another jug's weight is refused where this one cannot be as
// heavy, with the way out, to the last word.
func TestMoreLyeThanWentIn(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("sea/lye jug")
	p.types("568.4").press("enter").sees("568.4 g is 89.6 g more than went into lye jug A. That is nearer to lye jug", "  B. Another vessel: say which (i). More went in: correct that first (u).")
}

// TestAPourMayTakeAWeight: a pour is told by its line and is one key; what the scale said
// may be typed first, is shown with what that leaves in the jug, and is kept with it.
func TestAPourMayTakeAWeight(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("sea/base/loaf 1/pour")
	for range 200 {
		if p.taskAtHand().PourLine > 0 {
			break
		}
		p.doesOne()
	}
	p.sees("pour to 22.5 mm", "42.5 mm down from the rim; that").seesNot("on the scale", "scale under").sees("space done", "0-9 weighed")
	p.types("340").sees("asked 347; 27 stay in the jug").press("enter").sees("340.0 g weighed into it", "Loaf 2: pour")
	p.press("space").sees("Loaf 3: pour")
	for i, want := range []quantity.Mass{340 * quantity.Gram, 0} {
		if tick, _ := p.m.bench.State.Done(fmt.Sprintf("sea/base/loaf %d/pour", i+1)); tick.Mass != want {
			t.Errorf("loaf %d: %s is kept", i+1, tick.Mass)
		}
	}
}

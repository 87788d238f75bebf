package ui

import (
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/memory"
)

// TestHotLyeWaits: enter lets nothing meet that is too hot, the line of keys shows what
// reads again, and mixing all the same takes the figure and a reason.
func TestHotLyeWaits(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("sea/lye temperature")
	p.waits(10*time.Minute).types("85").press("enter", "down").types("75").press("enter")
	before := len(p.store.Facts("26K25A"))
	p.sees("79.2 °C: let both cool", "↑ read again", "s too hot").seesNot("it is so")
	p.press("enter").recorded(before).sees("38 °C is wanted: let both cool", "(up, and type)")
	p.press("s").sees("▶ Let both cool, and read again", "Mix them at 79.2 °C all the same").press("enter").recorded(before).sees("↑ read again")
	p.press("s", "down", "enter").types("hard oils set").press("enter").recorded(before).sees("Hard is not how warm they are together")
	p.press("esc", "s", "down", "enter").types("79.2 hard oils set").press("enter").recorded(before + 1)
	if f, ok := p.last().(batch.Ticked); !ok || f.Task != "sea/meet" || f.Why != "79.2 hard oils set" {
		t.Errorf("kept %+v", p.last())
	}
	p.sees("stage 8").press("left").sees("0-9 read it again").waits(10 * time.Minute).types("40").press("enter")
	if p.task() != "sea/meet" {
		t.Errorf("at %s, read again after the gate", p.task())
	}
}

// TestFiguresAreOfWhatIsAsked: figures that were typed before something was taken back are
// gone with what was asked then.
func TestFiguresAreOfWhatIsAsked(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("sea/oil temperature").types("60").sees("together they give ")
	p.press("u", "x").types("misread").press("enter")
	if _, ok := p.last().(batch.Withdrawn); !ok || p.m.bench.Typed != "" {
		t.Errorf("%q stands after %+v", p.m.bench.Typed, p.last())
	}
	p = arrives(t, memory.New()).starts().works("sea/oil temperature").types("60").press("n").types("dusk").press("enter")
	if p.m.bench.Typed != "60" {
		t.Errorf("a note took %q for 60", p.m.bench.Typed)
	}
}

// TestEnterAfterItsStage: a second enter at the end of a stage is told what came up.
func TestEnterAfterItsStage(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("sea/oil temperature")
	before := len(p.store.Facts("26K25A"))
	p.types("38").gets(keyOf("enter")).waits(800 * time.Millisecond).gets(keyOf("enter")).recorded(before + 1).sees("What was done stands here: look first").seesNot("another stage")
}

package ui

import (
	"slices"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/memory"
)

// TestGelOfOneLoaf: the arrows say of which loaf a look is; enter alone says it of all, or
// of all the others.
func TestGelOfOneLoaf(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("").looks(70*time.Minute).press("enter").sees("all 3 loaves", "← → loaf")
	p.press("right", "right").sees("loaf 2 only").press("left", "left", "left").sees("loaf 3 only")
	p.press("down", "enter")
	if f, ok := p.last().(batch.GelLooked); !ok || !slices.Equal(f.Loaves, []int{3}) || f.Look != batch.Gelling {
		t.Fatalf("kept %+v", p.last())
	}
	p.sees("gel of the other loaves", "loaf 3 gelling").press("enter").sees("all the others").press("right", "right", "right").sees("all the others").press("enter")
	if f, ok := p.last().(batch.GelLooked); !ok || !slices.Equal(f.Loaves, []int{1, 2}) || f.Look != batch.NoGel {
		t.Errorf("kept %+v", p.last())
	}
}

// TestLoafIsWeighedAsItLeavesItsMould: a figure and enter unmould a loaf with its weight,
// and one that looks like a slip is typed twice; space unmoulds it unweighed.
func TestLoafIsWeighedAsItLeavesItsMould(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("").looks(25 * time.Hour).works("unmould/loaf 1").sees("what it weighs")
	p.types("98").sees("out of its mould").press("enter").sees("expected about").press("esc")
	p.types("910").sees("910").press("enter")
	if f, ok := p.last().(batch.Ticked); !ok || f.Mass != 910_000 || f.Task != "unmould/loaf 1" {
		t.Fatalf("kept %+v", p.last())
	}
	p.waits(time.Second).press("space")
	if f, ok := p.last().(batch.Ticked); !ok || f.Mass != 0 || f.Task != "unmould/loaf 2" {
		t.Errorf("kept %+v", p.last())
	}
}

// TestTemperatureIsInTheFooter: where a temperature may be typed before the answer, the
// line of keys says so.
func TestTemperatureIsInTheFooter(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("").waits(61 * time.Minute)
	p.press("down").sees("Look at the gel", "enter answers   0-9 temperature")
}

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

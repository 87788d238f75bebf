package ui

import (
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/memory"
	"bench/internal/work"
)

// TestImpossibleIsRefusedAtOnce: what no answer makes possible is not asked about first,
// and stays to be mended, as a figure and in words.
func TestImpossibleIsRefusedAtOnce(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("").press("esc")
	for loaf := 1; loaf <= 3; loaf++ {
		p.tells("26K25A", atCut, batch.Ticked{Task: work.OfLoaf("unmould", loaf-1)})
	}
	p.tells("26K25A", atCut, batch.Ticked{Task: "cut/side"})
	p.clock = morning.Add(atCut + time.Minute)
	p.press("esc", "enter", "enter")
	before := len(p.store.Facts("26K25A"))
	p.types("9.5").press("enter").sees("type a whole number from 0 to 999", "keep 9.5").recorded(before)
	p.press("esc", "t").sees("8 on 2026-11-25").types("9 on 2027-03-04").press("enter")
	p.sees("has not come yet", "9 on 2027-03-04▏").seesNot("Is that so?").recorded(before)
	for range "7-03-04" {
		p.press("backspace")
	}
	p.types("6-11-26").press("enter").sees("Is that so?").types("th").press("esc")
	p.sees("How many bars.", "9 on 2026-11-26▏").recorded(before).press("enter").sees("Is that so?").types("thinner").press("enter")
	if f, ok := p.last().(batch.BarsCut); !ok || f.Bars != 9 || f.Answer != "thinner" {
		t.Errorf("kept %+v", p.last())
	}
}

// TestRefusedReworkIsNoFailedSave: a batch that is made of none that there is is refused
// where it was said, with the words still there; nothing is said to be unsaved.
func TestRefusedReworkIsNoFailedSave(t *testing.T) {
	p := arrives(t, memory.New()).starts().press("c").sees("made of an earlier one").press("enter")
	p.types("999999Z too soft").press("enter").sees("There is no batch 999999Z: say the code", "999999Z too soft▏").seesNot("NOT SAVED").recorded(0)
	p.press("esc").seesNot("NOT SAVED").press("space").recorded(1)
	p.press("c", "enter").types("26K25A too soft").press("enter").sees("A batch is not made of itself")
	p.sized(60, 20).sees("not made of itself")
}

// TestAlarmOfABatchElsewhere: an alarm of a batch that another program has is told as that.
func TestAlarmOfABatchElsewhere(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("dusk/shea").press("esc", "down", "down", "enter", "enter").looks(6 * time.Minute)
	p.store.HeldBy["26K25A"] = "process 12 has it open since 25 Nov 09:00"
	p.press("a").sees("Batch 26K25A was not opened: process 12 has it open").seesNot("Not saved", "NOT SAVED")
}

// TestCloseInAnyCase takes the words that end a batch however they are written.
func TestCloseInAnyCase(t *testing.T) {
	p := arrives(t, memory.New()).tested(9.6).press("enter", "enter").sees("Everything is done")
	p.press("e").types(" Close ").press("enter").records(batch.Closed{})
	q := arrives(t, memory.New()).starts()
	q.press("e").types("ABANDON: the pump is out").press("enter").records(batch.Closed{Reason: "the pump is out"})
}

// TestUnguardedStaysInSight: that gloves and goggles were left out is seen at every task
// until the alkali is put away, and no longer once the entry is taken back.
func TestUnguardedStaysInSight(t *testing.T) {
	p := arrives(t, memory.New()).starts().seesNot("lye burns: put them on")
	p.press("x").types("at hand").press("enter").sees("left out (at hand), and lye burns")
	p.works("sea/sodium hydroxide").sees("left out (at hand), and lye burns")
	p.sized(120, 40).sees("left out (at hand), and lye burns")
	p.works("clean up/gloves").sees("and lye burns").doesOne().seesNot("and lye burns")
}

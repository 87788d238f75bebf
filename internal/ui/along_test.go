package ui

import (
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/memory"
)

// TestReadsAlong reads along with a batch that another bench writes, is kept from
// writing it, and takes it over once it was let go.
func TestReadsAlong(t *testing.T) {
	s := memory.New()
	first := arrives(t, s).starts()
	s.HeldBy["26K25A"] = "process 12 has it open since 09:00"
	second := arrives(t, s).sees("process 12 has it open", "read along").press("enter")
	second.sees("batch 26K25A", "Reading along: process 12 has it open since 09:00.").seesNot("Where you were")

	second.sees("then enter takes it over here", "← → stages", "esc back", "! first aid").seesNot("space done", "u correct", "n note", "take it over")
	for _, key := range []string{" ", "n", "u", "e", "5", "enter", "c", "s", "x", "d", "w"} {
		second.press(key).sees("│ ▶ Gloves", "Reading along")
	}
	second.recorded(0).gets(glanceMsg{"26K25A"}).sees("Reading along: process 12")

	kept := first.press(" ").last()
	second.seesNot("✓ Gloves").gets(glanceMsg{"26K25A"}).sees("✓ Gloves", "Reading along: process 12")
	second.press(" ").recorded(1).sees("Reading along")
	second.gets(glanceMsg{"26K25A"}).gets(glanceMsg{"another"}).recorded(1)

	delete(s.HeldBy, "26K25A")
	delete(s.Held, "26K25A")
	second.gets(glanceMsg{"26K25A"}).sees("it has been let go", "enter take it over").press(" ").recorded(1).press("enter").sees("Where you were").recorded(1)
	if !s.Held["26K25A"] {
		t.Error("the batch was not taken over")
	}
	second.press("enter", " ").recorded(2)
	if got := second.last(); batch.Kind(got) != batch.Kind(kept) || got == kept {
		t.Errorf("kept %+v", got)
	}
}

// TestReadingAlongTypesNothing: no figure stands there as typed, and the alarms of a
// batch that another bench writes are answered at that bench.
func TestReadingAlongTypesNothing(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("dusk/shea")
	p.store.HeldBy["26K25A"] = "process 12 has it open since 09:00"
	p.press("esc", "enter").sees("Reading along").types("12").seesNot("typed", "keep 12")
	n := len(p.store.Facts("26K25A"))
	p.looks(6*time.Minute).sees("!! look at base", "answered at the other bench").seesNot("a seen")
	p.press("a").sees("the alarm is answered there", "Reading along").press("z", "z").recorded(n)
	p.store.HeldBy["26K25A"] = ""
	p.gets(glanceMsg{"26K25A"}).press("enter", "enter").sees("a seen z later").press("a").recorded(n + 1)
}

// Home again, or another batch, ends the reading along and lets nothing go that
// was never held.
func TestReadingAlongEnds(t *testing.T) {
	s := memory.New()
	first := arrives(t, s).starts()
	s.HeldBy["26K25A"] = "process 12 has it open"
	second := arrives(t, s).press("enter").sees("Reading along").press("esc")
	second.sees("Under way").seesNot("not let go").gets(glanceMsg{"26K25A"}).sees("Under way")
	second.press("enter").sees("Reading along").press("q")
	first.press(" ").recorded(1)
	if !s.Held["26K25A"] {
		t.Error("the first bench's hold is gone")
	}
}

package ui

import (
	"testing"

	"bench/internal/batch"
	"bench/internal/memory"
)

// TestCorrectionAsks holds a correction to saying what it wants, in which unit,
// and what was said before; and a slip to being asked for a second time.
func TestCorrectionAsks(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("sea/base/loaf 2").press("u", "enter")
	p.sees("Portion for loaf 1, net g (was 367.2, asked 367.2)")
	before := len(p.store.Facts("26K25A"))
	p.types("36.7").press("enter").sees("asked 367.2, typed 36.7. Right? Then type it again.").seesNot("▏36.7")
	p.types("x").press("enter").sees("!", "new value   x▏").press("backspace").types("365.0").press("enter").sees("365.0").types("misread").press("enter").recorded(before + 1)

	p.press("u", "up", "enter").sees("large pot: the whole weight, vessel included, g (was 1833.5")
	p.types("1").press("enter").sees("vessel included", "new value   1▏\n") // What was refused can be mended.
}

// TestDoubtfulCorrection keeps a value that looks like a slip once it came out
// the same twice.
func TestDoubtfulCorrection(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("sea/olive").press("u", "enter")
	p.types("21.42").press("enter").sees("Right?").types("21.43").press("enter").sees("Right?")
	p.types("21.43").press("enter").seesNot("Right?").types("half of it was spilt").press("enter")
	if c, ok := p.last().(batch.Corrected); !ok || c.With.(batch.Weighed).Mass != 21_430 {
		t.Errorf("kept %+v", p.last())
	}
}

// TestCorrectedRows holds a corrected entry to being marked by a sign and a word,
// and to showing the value that stands beside the first.
func TestCorrectedRows(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("sea/olive").press("u", "enter")
	p.types("214.9").press("enter").types("misread").press("enter").press("u")
	p.sees("31 → 09:00  now 214.9 g (corrected; first 214.2 g): sea: coconut oil", "corrected no. 31")
	p.press("enter").sees("no. 31  coconut oil, g (was 214.9, asked 214.2)")
}

// TestRecordSkipsWhatWasTakenBack: the list opens at the latest measured entry that still
// stands, so that u and x go back one after the other.
func TestRecordSkipsWhatWasTakenBack(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("sea/olive")
	first := len(p.store.Facts("26K25A"))
	p.press("u", "x").types("another cup").press("enter")
	if w, ok := p.last().(batch.Withdrawn); !ok || w.Seq != first {
		t.Fatalf("kept %+v", p.last())
	}
	p.press("u", "x").types("another cup").press("enter")
	if w, ok := p.last().(batch.Withdrawn); !ok || w.Seq >= first {
		t.Errorf("kept %+v", p.last())
	}
}

// TestListsGoByPage: page keys and the ends work in the record, on the first screen, among
// vessels and answers and in the plan that is read; home and end among the tasks at hand.
func TestListsGoByPage(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("sea/olive")
	first := p.task()
	p.press("end")
	if last := p.task(); last == first {
		t.Errorf("end stays at %s", first)
	}
	if p.press("home"); p.task() != first {
		t.Errorf("home leads to %s", p.task())
	}
	p.press("u", "home").sees("▶   1 ").press("pgdown").sees("▶  15 ").press("pgup").sees("▶   1 ").press("end").seesNot("▶   1 ", "▶  15 ").press("esc")
	p.press("esc", "end").seesNot("▶ Lighthouse at dusk        26K25A").press("home").sees("▶ Lighthouse at dusk        26K25A").press("pgdown").seesNot("▶ Lighthouse at dusk        26K25A")
	p.press("enter").sees("↓").press("pgdown", "end").seesNot("↓ 1").press("home").sees("↓")
}

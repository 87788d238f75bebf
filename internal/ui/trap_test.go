package ui

import (
	"errors"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/memory"
	"bench/internal/ui/intent"
	"bench/internal/ui/keys"

	tea "github.com/charmbracelet/bubbletea"
)

func runes(s string) tea.KeyMsg { return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(s)} }

// TestKeysTogether holds keys that arrive in one read to being separate keys.
func TestKeysTogether(t *testing.T) {
	p := arrives(t, memory.New()).starts().waits(time.Second)
	p.gets(runes("jj ")).recorded(1).records(batch.Ticked{Task: "set out/moulds"})

	p.works("sea/water").waits(time.Second)
	p.gets(runes("216.0\r?")).sees("Weigh and tick").press("enter")
	if w, ok := p.last().(batch.Weighed); !ok || w.Mass != 216_000 || w.How != batch.Typed {
		t.Errorf("kept %+v", p.last())
	}
}

// TestPasteIsNoKey holds a paste to answering nothing, and to being text where
// text is written.
func TestPasteIsNoKey(t *testing.T) {
	paste := func(s string) tea.KeyMsg { return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(s), Paste: true} }
	p := arrives(t, memory.New())
	p.gets(paste("\r")).sees("Recipes")
	p.starts().waits(time.Second)
	p.gets(paste(" ")).gets(paste("q")).gets(paste("312\r")).recorded(0)
	p.press("n").gets(paste("too \x1b[31mwarm\n")).press("enter")
	p.records(batch.Noted{Stage: "set out", Text: "too \ufffd[31mwarm"})
}

// TestHeldKey holds a key that is held down to one tick, with the usual delay
// before it repeats and with the shortest.
func TestHeldKey(t *testing.T) {
	for _, delay := range []time.Duration{200 * time.Millisecond, 500 * time.Millisecond, 660 * time.Millisecond} {
		p := arrives(t, memory.New()).starts().press("space").recorded(1)
		p.waits(delay)
		for range 40 {
			p.gets(keyOf("space")).waits(33 * time.Millisecond)
		}
		p.recorded(1)
		p.press("space").recorded(2)
	}
}

// settles lets the moment pass after which no repeat can come.
func (p *person) settles() *person {
	p.t.Helper()
	return p.waits(keys.Settles).gets(settledMsg{p.m.unsure.id})
}

// TestPressedAgain holds presses half a second apart to one tick each, a double
// press to one, and a press that is not settled yet to its own task.
func TestPressedAgain(t *testing.T) {
	p := arrives(t, memory.New()).starts().press("space").waits(keys.Settles)
	for n := range 7 {
		p.waits(500*time.Millisecond - keys.Settles).gets(keyOf("space")).recorded(1 + n).settles().recorded(2 + n)
		p.gets(settledMsg{p.m.unsure.id}).recorded(2 + n) // Once.
	}
	p.waits(300*time.Millisecond - keys.Settles).gets(keyOf("space")).settles().recorded(8)
	p.press("space").recorded(9).waits(500 * time.Millisecond).gets(keyOf("space")).recorded(9)
	p.gets(keyOf("n")).sees("Note").recorded(10).press("esc")
	p.press("space").recorded(11).waits(500 * time.Millisecond).gets(keyOf("space")).gets(keyOf("down")).recorded(12)
	p.press("space").recorded(13).waits(500 * time.Millisecond).gets(keyOf("space")).waits(100 * time.Millisecond).gets(keyOf("space"))
	p.settles().recorded(13)
}

// TestHeldEnterStartsNothing holds a key from the screen before to starting no
// batch.
func TestHeldEnterStartsNothing(t *testing.T) {
	s := memory.New()
	p := arrives(t, s).press("enter").sees("loaves")
	p.waits(500 * time.Millisecond)
	for range 40 {
		p.gets(keyOf("enter")).waits(33 * time.Millisecond)
	}
	if len(s.Codes) != 0 {
		t.Fatal("a held key began a batch")
	}
	p.press("enter").sees("set out")
}

// TestKeyOnItsWay holds a key pressed just before the screen changed to making
// no fact on the screen it was not meant for.
func TestKeyOnItsWay(t *testing.T) {
	p := arrives(t, memory.New()).starts()
	p.gets(keyOf("space")).recorded(0)
	p.press("n", "esc").waits(50 * time.Millisecond)
	p.gets(keyOf("space")).recorded(0)
	p.press("space").recorded(1)
}

// TestEscapeRunIntoKey holds an escape that ran into the next key to no tick.
func TestEscapeRunIntoKey(t *testing.T) {
	p := arrives(t, memory.New()).starts().waits(time.Second)
	p.gets(tea.KeyMsg{Type: tea.KeySpace, Runes: []rune{' '}, Alt: true})
	p.gets(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{' '}, Alt: true}).recorded(0)
}

// TestOneFactInFlight holds a key that would make a second fact, while one is
// being saved, to a quiet word, and figures to waiting for what follows.
func TestOneFactInFlight(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("sea/water")
	p.holdBack = true
	p.types("216").press("enter").sees("saving", "…")
	p.types("7.6").press("enter").sees("Still saving").press("space").sees("Still saving")
	p.let().sees("sodium lactate", "within", "typed")
	if got := p.m.bench.Typed; got != "7.6" {
		t.Errorf("typed is %q", got)
	}
	before := len(p.store.Facts("26K25A"))
	p.press("enter").recorded(before + 1)
}

// TestNothingShowsBeforeItIsSaved holds a tick to showing only once the store
// has handed it back.
func TestNothingShowsBeforeItIsSaved(t *testing.T) {
	p := arrives(t, memory.New()).starts().seesNot("✓ Gloves")
	p.holdBack = true
	p.press("space").seesNot("✓ Gloves").sees("… Gloves")
	p.let().sees("✓ Gloves")
}

// TestQuitWaits holds a leave to waiting for the fact in flight, and to staying
// when it could not be saved.
func TestQuitWaits(t *testing.T) {
	p := arrives(t, memory.New()).starts()
	p.holdBack = true
	p.press("space", "q").sees("Leaving: still saving")
	if p.left || !p.m.Busy() {
		t.Fatal("left before the fact was saved")
	}
	p.let().recorded(1)
	if !p.left {
		t.Fatal("did not leave after the fact was saved")
	}
	if p.store.Held["26K25A"] {
		t.Error("the batch was not let go")
	}

	p = arrives(t, memory.New()).starts()
	p.holdBack = true
	p.press("space", "ctrl+c")
	p.store.Fail = errors.New("no space left on device")
	p.let().sees("NOT SAVED", "o space left")
	if p.left {
		t.Fatal("left although the fact was not saved")
	}
	p.press("q").sees("is not saved")
	if p.left {
		t.Fatal("q lost a fact that was not saved")
	}
}

// TestAlarmLeavesTyping holds an alarm that comes up to taking no key that is
// being typed, and to being answered by none already on its way.
func TestAlarmLeavesTyping(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("dusk/shea")
	p.types("12").looks(5*time.Minute-time.Second).sees("!! look at base", "due now", "typed")
	p.gets(keyOf("a")).sees("just come up")
	p.types("6.5")
	if got := p.m.bench.Typed; got != "126.5" {
		t.Fatalf("typed is %q after the alarm", got)
	}
	p.press("enter")
	if w, ok := p.last().(batch.Weighed); !ok || w.Mass != 126_500 {
		t.Errorf("kept %+v", p.last())
	}
	id := p.m.board().Timers(p.moment())[0].ID
	p.press("a").records(batch.TimerSeen{Timer: id}).seesNot("!!")
	p.looks(6 * time.Minute).sees("!!")
	id = p.m.board().Timers(p.moment())[0].ID
	before := len(p.store.Facts("26K25A"))
	p.press("z").recorded(before).sees("later: z 5 min  x 10 min  c 30 min  esc not")
	p.press("esc").sees("a seen z later").types("12").sees("a seen z later", "typed").recorded(before)
	p.press("z", "z").records(batch.TimerPutOff{Timer: id, For: 5 * time.Minute})
	p.seesNot("!!").sees("put off until 09:17")
	if p.m.bench.Typed != "12" {
		t.Errorf("typed is %q", p.m.bench.Typed)
	}
}

// TestTicksOnlyWhenNeeded holds the program to asking for no tick while no
// timer runs, and for one at a time otherwise.
func TestTicksOnlyWhenNeeded(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("sea/dissolve")
	if p.ticks != 0 {
		t.Fatalf("%d ticks were asked for with no timer", p.ticks)
	}
	p.press("space")
	if p.ticks != 1 {
		t.Fatalf("%d ticks were asked for by one timer", p.ticks)
	}
	p.gets(keyOf("j")).gets(keyOf("k")).gets(tickMsg{-1})
	if p.ticks != 1 {
		t.Fatalf("%d ticks are on their way", p.ticks)
	}
	p.looks(time.Second)
	if p.ticks != 2 {
		t.Fatalf("%d ticks after one came", p.ticks)
	}
}

// TestAnyKeyIsNoLeave: on a page that any key leaves, q leaves that page and not the
// program.
func TestAnyKeyIsNoLeave(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("sea/olive")
	for _, page := range []string{"!", "?", "f"} {
		bench := p.m.View()
		if p.press(page); p.m.View() == bench {
			t.Fatalf("%s opened nothing", page)
		}
		if p.press("q"); p.left || p.m.page != intent.PageBench {
			t.Errorf("q on the page of %s: left %v, page %v", page, p.left, p.m.page)
		}
	}
	if p.press("q"); !p.left {
		t.Error("q at the bench does not leave")
	}
}

package ui

import (
	"errors"
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/memory"
	"bench/internal/timer"
	"bench/internal/ui/intent"
)

// TestWholeBatch makes the two-batter batch from the set-up to its end.
func TestWholeBatch(t *testing.T) {
	p := arrives(t, memory.New()).press("enter").sees("Lye burns", "superfat")
	p.press("pgdown", "pgdown", "pgdown").sees("The order, and why").press("enter")
	p.works("").sees("Nothing to do just now", "unmould 3 loaves")
	p.press("space").sees("nothing to do")
	p.looks(24 * time.Hour).sees("!! ").works("cut/side").sees("Lay the loaf on its side")
	p.press("e").types("abandon given away uncut").press("enter").records(batch.Closed{Reason: "given away uncut"}).sees("This batch is closed")
	p.press("e").sees("The batch is closed")
	p.press("n").types("smooth tops").press("enter").records(batch.Noted{Text: "smooth tops"})
	if p.m.bench.Plan.Closed != true {
		t.Error("the plan does not know that the batch is closed")
	}
}

// TestWeighOneIngredient follows one weighing through target, deviation,
// several containers and by eye.
func TestWeighOneIngredient(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("sea/olive").sees("tared", "not tared", "so far")
	asked := p.asked()
	p.types("100.5").press("+").sees("in already 100.5")
	if w := p.last().(batch.Weighed); !w.More || w.Mass != 100_500 || w.Task != "sea/olive" {
		t.Errorf("kept %+v", w)
	}
	if p.task() != "sea/olive" {
		t.Fatalf("went on to %s while more is to come", p.task())
	}
	p.press("space")
	if sum, done := p.m.bench.State.Mass("sea/olive"); !done || sum.At(tenthOfAGram) != asked {
		t.Errorf("weighed %s of %s", sum, asked)
	}
	p.press("b")
	if w := p.last().(batch.Weighed); w.How != batch.ByEye || w.Task != "sea/castor" {
		t.Errorf("kept %+v", w)
	}
	p.sees("by eye")
}

// TestAlkaliIsTyped holds alkali to being typed.
func TestAlkaliIsTyped(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("sea/sodium hydroxide")
	before := len(p.store.Facts("26K25A"))
	p.press("space").sees("never ticked unseen").press("b").recorded(before).press("enter").sees("Type the number first").recorded(before)
	p.types("106.5").press("enter").recorded(before + 1)
}

// TestDoubt holds a value that looks like a slip to being typed twice alike.
func TestDoubt(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("sea/olive")
	before := len(p.store.Facts("26K25A"))
	p.types("612.4").press("enter").recorded(before).sees("asked 344.3, typed 612.4", "type it again")
	p.types("612.5").press("enter").recorded(before).sees("type it again")
	p.types("344.2").press("enter").recorded(before + 1)

	p.works("dusk/shea")
	before = len(p.store.Facts("26K25A"))
	p.types("12").press("enter").recorded(before).types("12").press("enter").recorded(before + 1)
}

// TestNotSaved holds a failed write to a message that says what is not saved
// and why, and to the same fact on a second try.
func TestNotSaved(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("sea/olive")
	before := len(p.store.Facts("26K25A"))
	p.store.Fail = errors.New("write bench.db: no space left on device")
	said := p.waits(time.Second).moment()
	p.gets(keyOf("space")).sees("NOT SAVED", "no space left", "not saved").recorded(before)
	p.press("space").sees("r saves it again").recorded(before)
	p.press("r").sees("NOT SAVED").recorded(before)
	p.store.Fail = nil
	p.press("r").recorded(before + 1).seesNot("NOT SAVED")
	if e := p.store.Entries["26K25A"][before+1]; e.At != said || batch.Task(e.Fact) != "sea/olive" {
		t.Errorf("kept %+v, said at %v", e, said)
	}
	p.store.Fail = errors.New("read-only file system")
	p.press("space").sees("NOT SAVED").press("esc").sees("not in the record").recorded(before + 1)
	p.store.Fail = nil
	p.press("space").recorded(before + 2)
}

// TestReopen holds a batch that is opened again to being where it was, and the
// first answering key to ticking nothing.
func TestReopen(t *testing.T) {
	s := memory.New()
	p := arrives(t, s).starts().works("sea/olive").press("q")
	if !p.left {
		t.Fatal("did not leave")
	}
	p = arrives(t, s).waits(26*time.Hour).sees("Lighthouse at dusk", "olive oil").press("enter")
	p.sees("Where you were", "25 Nov 09:0", "melted clear", "Next", "olive oil")
	before := len(s.Facts("26K25A"))
	p.press("enter").recorded(before).seesNot("Where you were")
	p.press("space").recorded(before + 1)
}

// TestCorrection corrects an old entry; the first value stays in sight, and the
// plan follows.
func TestCorrection(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("sea/melt").sees("coconut oil")
	p.press("u").sees("Record of batch", "coconut oil 214").press("up", "enter").types("155.8").press("enter")
	p.press("enter").sees("reason").types("read the wrong line").press("enter")
	c, ok := p.last().(batch.Corrected)
	if !ok || c.Reason != "read the wrong line" || c.With.(batch.Weighed).Mass != 155_800 {
		t.Fatalf("kept %+v", p.last())
	}
	if sum, _ := p.m.bench.State.Mass("sea/shea"); sum != 155_800 {
		t.Errorf("the plan goes by %s", sum)
	}
	p.press("u", "down").sees("(was: ", "read the wrong line").press("up", "up", "up", "up", "up", "up", "up", "up", "enter").sees("the time at which it was done")
	p.press("esc", "esc").sees("stage 4")
}

// TestMoving moves among tasks and stages, and back to what is next.
func TestMoving(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("sea/water")
	p.press("right").sees("lye · dusk").press("right").sees("shea butter")
	if p.task() != "sea/shea" {
		t.Fatalf("at %s", p.task())
	}
	p.types("12").press("down")
	if p.task() != "sea/coconut" || p.m.bench.Typed != "" {
		t.Fatalf("at %s with %q typed", p.task(), p.m.bench.Typed)
	}
	p.press("space")
	if _, stage, _ := p.m.bench.Plan.Task(p.task()); stage.ID != "oils/sea" {
		t.Fatalf("then at %s, away from the stage", p.task())
	}
	p.press("right", "space").sees("waits for").press("esc")
	if p.task() != "sea/water" {
		t.Fatalf("back at %s", p.task())
	}
}

// TestTwoBatches goes from one batch to the other with one key, and answers an
// alarm of the one that is not on the bench.
func TestTwoBatches(t *testing.T) {
	s := memory.New()
	p := arrives(t, s).starts().press("tab").sees("No other batch")
	p.works("dusk/shea").press("esc").press("down", "down", "enter", "enter").sees("Tide lines", "26K25B")
	p.looks(6 * time.Minute).sees("!! 26K25A: look at base").press("a").seesNot("!!")
	if got := s.Facts("26K25A"); batch.Kind(got[len(got)-1]) != "timer-seen" {
		t.Errorf("kept %+v", got[len(got)-1])
	}
	p.press("tab").sees("Lighthouse at dusk", "Where you were")
	if !s.Held["26K25A"] || s.Held["26K25B"] {
		t.Errorf("held: %v", s.Held)
	}
	s.HeldBy["26K25B"] = "another bench has it open since 09:04"
	p.press("enter", "tab").sees("another bench has it open since").press("n").sees("Note")
}

// TestRefusals holds a batch that another bench writes, and a recipe with
// problems, to words.
func TestRefusals(t *testing.T) {
	s := memory.New()
	arrives(t, s).starts().press("q")
	s.HeldBy["26K25A"] = "another bench has it open"
	p := arrives(t, s).sees("another bench has it open").press("enter").sees("! Reading along: another bench")
	p.press("esc").press("down", "down", "down", "enter").sees("cannot be started", "97 %")
	s.Fail = errors.New("the folder is read-only")
	p.press("up", "up", "enter", "enter").sees("was not started", "read-only")
}

// TestLoaves changes the loaves at the set-up.
func TestLoaves(t *testing.T) {
	p := arrives(t, memory.New()).press("enter").sees("▶ 3").types("2").sees("▶ 2").press("left").sees("▶ 1")
	p.types("12").sees("! ").press("enter").sees("cannot be started").press("backspace", "enter").sees("1 loaf ")
}

// TestAbandon holds a batch to ending early only by the word and a reason.
func TestAbandon(t *testing.T) {
	p := arrives(t, memory.New()).starts().press("e").sees("Abandon this batch?").press("enter").recorded(0)
	p.types("abandon").press("enter").recorded(0).types(" the pot seized").press("enter")
	p.records(batch.Closed{Reason: "the pot seized"})
}

// TestAbandonWithLye asks what becomes of the lye before a batch ends. What is kept stays
// known as full, to the next batch too, until somebody says that it is empty.
func TestAbandonWithLye(t *testing.T) {
	p := arrives(t, memory.New()).starts().works("sea/lye jug/dissolved").press("e").sees("What burns still stands there: lye jug A (the sea lye")
	before := len(p.store.Facts("26K25A"))
	p.types("abandon the power is out").press("enter").sees("What becomes of the sea lye solution?", "safety data sheet", "labelled").press("enter").sees("Begin with the word")
	p.types("kept lidded, marked LYE, top shelf").press("enter").sees("  ended\n", "This batch has ended", "lye jug A (the sea lye", "e it is empty")
	p.seesNot("May be begun now").recorded(before + 1).press("space").recorded(before + 1)
	p.press("esc").sees("ended; still full: lye jug A").press("down").press("enter").sees("lye jug A holds the sea lye solution of batch 26K25A")
	p.press("esc", "up", "up", "up", "up", "enter").sees("This batch has ended").press("e").types("emptied by the safety data sheet").press("enter").sees("This batch is closed")
	p.records(batch.Closed{Reason: "the power is out", Left: "lye jug A (the sea lye solution) emptied: by the safety data sheet"})
}

// TestLeaveOut leaves a task out with its reason, and never an alkali.
func TestLeaveOut(t *testing.T) {
	p := arrives(t, memory.New()).starts().press("x").sees("Leave out").types("no scale here").press("enter")
	p.records(batch.Skipped{Task: "set out/protection", Reason: "no scale here"}).sees("left out")
	p.works("sea/sodium hydroxide").press("x").sees("cannot be left out")
}

// TestFirstAidEverywhere reaches first aid from every screen, and any key goes
// back to it.
func TestFirstAidEverywhere(t *testing.T) {
	for _, scene := range scenes {
		p := arrives(t, memory.New())
		scene.lead(p)
		if p.m.page == intent.PageAid || p.m.page == intent.PageKeys {
			continue
		}
		page, before := p.m.page, p.m.View()
		p.press("f1").sees("NEVER", "Vinegar", "15 minutes", "safety data sheet")
		p.waits(time.Minute).press("space") // A minute is a second of the hand in the fastest practice.
		if p.m.page != page || (p.m.View() != before && len(p.m.board().Timers(p.moment())) == 0) {
			t.Errorf("%s: came back to\n%s", scene.name, p.m.View())
		}
	}
	arrives(t, memory.New()).sized(30, 10).press("!").sees("Water")
}

// TestNamesAreCleaned holds names from outside to being shown, not obeyed.
func TestNamesAreCleaned(t *testing.T) {
	s := memory.New()
	p := arrives(t, s)
	p.m.home.Recipes[0].Name = "Tide\x1b[2J \u202elines"
	if v := p.m.View(); strings.ContainsAny(v, "\x1b\u202e") || !strings.Contains(v, "Tide\ufffd[2J") {
		t.Errorf("the screen holds %q", v)
	}
	c, _ := p.m.home.Recipes[1].Resolve(3)
	c.Recipe.Name = "Moon\x07\u200b"
	if _, _, err := s.Start(c, timer.Moment{Wall: morning}); err != nil {
		t.Fatal(err)
	}
	p = arrives(t, s)
	if v := p.m.View(); strings.ContainsAny(v, "\x07\u200b") {
		t.Errorf("the screen holds %q", v)
	}
}

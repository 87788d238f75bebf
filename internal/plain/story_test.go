package plain

import (
	"errors"
	"fmt"
	"reflect"
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/memory"
	"bench/internal/quantity"
	"bench/internal/reply"
	"bench/internal/work"
)

// does answers the task at hand as asked, and holds the fact to being the one that
// the core makes of that answer, whatever front it came from.
func (k *talker) does(t work.Task, stage work.Stage) {
	k.t.Helper()
	number, _ := reply.Asked(t, stage)
	text, a := "=", judge.Answer{How: batch.AtTarget}
	switch {
	case t.Do == work.Choose:
		text = "1"
	case t.Do == work.Bars && t.Counted == 0:
		text = fmt.Sprintf("%d x %s", max(1, t.Count), (t.Target * quantity.Mass(max(1, t.Count))).At(t.Reads))
	case t.Do == work.Measure:
		text = "9.6"
	case t.Do == work.WeighIn && t.Counted > 0:
		text = (t.Mass * 985 / 1000).At(t.Reads)
	case t.Numeric() && t.Do != work.Aside && t.Do != work.Bars:
		text = number
	}
	plan, before := k.plan(), len(k.store.Entries[code])
	k.says(text)
	if t.Do == work.Temperature && len(k.store.Entries[code]) == before {
		k.hears("after it was dissolved", "type it again").says(text) // No lye solution cools that fast.
	}
	if len(k.store.Entries[code]) != before+1 {
		k.t.Fatalf("%s was not answered by %q:\n%s", t.ID, text, k.heard())
	}
	k.hears("Kept: ")
	if t.Do == work.Choose {
		if want := judge.Choices(plan, t.ID, "")[0].Fact; !reflect.DeepEqual(k.last(), want) {
			k.t.Fatalf("%s: kept %+v, not %+v", t.ID, k.last(), want)
		}
		return
	}
	if text != "=" {
		a = judge.Answer{How: batch.Typed, Text: text}
	}
	want, err := judge.Fact(plan, t.ID, a)
	if err != nil || !reflect.DeepEqual(k.last(), want) {
		k.t.Fatalf("%s: kept %+v, not %+v (%v)", t.ID, k.last(), want, err)
	}
}

// works does task after task, as asked, until the task of that id is at hand; ""
// is until nothing is left to do for now.
func (k *talker) works(until string) *talker {
	k.t.Helper()
	for range 500 {
		plan := k.plan()
		id, ok := plan.Next(k.moment())
		if id == until || !ok && until == "" {
			return k
		}
		t, stage, _ := plan.Task(id)
		k.does(t, stage)
	}
	k.t.Fatalf("%q never came up", until)
	return k
}

// TestWholeBatch talks a batch through from its recipe to the release of its bars
// and its end, and hears at each task what the scale must read.
func TestWholeBatch(t *testing.T) {
	k := talks(t, memory.New())
	k.hears("Lye burns", "Water at hand").says("1").hears("the plan of Lighthouse at dusk").says("start").hears("Begun: batch 26K25A")
	k.works("sea/olive").hears("olive oil: 344.3 g", "Tared, it reads 344.3. Not tared, 1423.5: vessel 712.0, so far 367.2, and this.",
		"Right within ± 0.4 g, from 343.9 to 344.7.", "large pot, on bench scale", "Superfat 5.0 %")
	k.works("sea/base/loaf 2").hears("stop when the scale reads 1099.1 g", "The scale reads now 1466.3, pot and all")
	k.works("").hears("Nothing to do just now", "unmould 3 loaves")
	for range 600 {
		k.works("")
		if k.plan().Finished() {
			break
		}
		k.waits(6 * time.Hour).says("")
	}
	k.hears("Everything is done").says("end").hears("Close this batch?").says("").hears("Nothing was kept.").says("end close").hears("batch closed", "This batch is closed")
	var released bool
	for _, e := range k.store.Entries[code] {
		if f, ok := e.Fact.(batch.Skipped); ok {
			t.Errorf("left out: %+v", f)
		}
		if f, ok := e.Fact.(batch.Released); ok {
			released = len(f.Open) == 0
		}
	}
	if !released {
		t.Error("the bars were not released")
	}
	k.says("note smooth tops").hears("note: smooth tops")
	k.says("afterwards").hears("Skin reaction").says("2").says("itches").hears("A warning opened after the release: skin reaction: itches. No bar is noted to have left.")
	k.says("q").hears("Left; batch 26K25A is closed.")
	if err := k.ends(); err != nil || len(k.store.Held) > 0 {
		t.Errorf("%v, and held is %v", err, k.store.Held)
	}
}

// TestAlkaliIsTyped holds alkali to being typed, and never ticked, judged by eye
// or left out.
func TestAlkaliIsTyped(t *testing.T) {
	k := talks(t, memory.New()).starts().works("sea/sodium hydroxide").hears("It burns: type what the scale says.")
	before := len(k.store.Entries[code]) - 1
	k.says("=").hears("never ticked unseen").says("done", "b", "b 106.5").hears("never ticked unseen").says("x too late").hears("cannot be left out")
	k.recorded(before).says("106.5").recorded(before + 1)
}

// TestDoubt holds a value that looks like a slip to being typed twice alike, and
// nothing else to taking its place.
func TestDoubt(t *testing.T) {
	k := talks(t, memory.New()).starts().works("sea/olive")
	before := len(k.store.Entries[code]) - 1
	k.says("612.4").hears("asked 344.3, typed 612.4", "type it again").says("=").hears("second time").says("612.5").hears("type it again").recorded(before)
	k.says("n", "the lamp flickers").recorded(before + 1).says("612.5").recorded(before + 2)
	if w := k.last().(batch.Weighed); w.Mass != 612_500 {
		t.Errorf("kept %+v", w)
	}
	k.hears("ways shows how to go on")
}

// TestScentChallenge: a scent over its limit is stirred in or poured once the
// figure that it is over by was typed, and not before; what was typed is kept.
func TestScentChallenge(t *testing.T) {
	k := talks(t, memory.New()).starts()
	scent := k.plan().Layers[0].Scents[0].Task
	k.works(scent)
	task, _, _ := k.plan().Task(scent)
	for range 2 {
		k.says((4 * task.Target).At(task.Reads))
	}
	before := len(k.store.Entries[code]) - 1
	figure := k.plan().Unread[0].Figure
	k.says("d").hears("1  sea: driftwood", "2  base: scent over its limit").says("2").hears("of the cured bar, and its limit is", "type how much of the cured bar").says("read").hears("is not the figure").says("")
	k.says("d", "2", "9.99").hears("9.99 is not the figure").recorded(before).says(figure).hears("read, and answered " + figure).recorded(before + 1)
	if w, ok := k.last().(batch.WarningSeen); !ok || w.Typed != figure {
		t.Errorf("kept %+v", k.last())
	}
}

// TestSeveralContainers follows one weighing through two containers and by eye.
func TestSeveralContainers(t *testing.T) {
	k := talks(t, memory.New()).starts().works("sea/olive").says("100.5+").hears("more to come", "in already 100.5 of 344.3")
	k.says("=").says("b 50")
	if w := k.last().(batch.Weighed); w.How != batch.ByEye || w.Mass != 50_000 || w.Task != "sea/castor" {
		t.Errorf("kept %+v", w)
	}
}

// TestCorrection corrects an entry; the first value stays, and the reason is kept.
func TestCorrection(t *testing.T) {
	k := talks(t, memory.New()).starts().works("sea/melt")
	k.says("u").hears("coconut oil 214.2 g").says("1").hears("holds no value")
	seq := len(k.store.Entries[code])
	k.says(fmt.Sprintf("u %d", seq)).hears("coconut oil, g (was 214.2, asked 214.2)").says("21").hears("type it again")
	k.says("21").says("").hears("needs its reason").says(fmt.Sprintf("u %d", seq), "215.8", "read the wrong line").hears("corrected no.", "was: sea: coconut oil 214.2 g")
	if c, ok := k.last().(batch.Corrected); !ok || c.Reason != "read the wrong line" || c.With.(batch.Weighed).Mass != 215_800 {
		t.Errorf("kept %+v", k.last())
	}
}

// TestWaysOn weighs too much oil and takes a way on.
func TestWaysOn(t *testing.T) {
	k := talks(t, memory.New()).starts().says("d").hears("no weight was off").works("sea/olive").says("370.0", "d").hears("25.7 g over", "superfat", "(usual)")
	k.says("99").hears("Type a number from 1").says("1")
	if _, ok := k.last().(batch.Decided); !ok {
		t.Errorf("kept %+v", k.last())
	}
}

// TestWeighPot asks whether all is in.
func TestWeighPot(t *testing.T) {
	k := talks(t, memory.New()).starts().works("sea/castor").says("w").hears("large pot").says("1", "1079.2")
	if f, ok := k.last().(batch.PotWeighed); !ok || !strings.Contains(f.Finding, "olive oil") {
		t.Errorf("kept %+v", k.last())
	}
	k.hears("olive oil")
	k.says("d").hears("Weigh large pot again", "count it as 0.0 g", "say how you know").says("3").hears("How do you know?").says("the other scale")
	if f, ok := k.last().(batch.PotAnswered); !ok || f.Answer != "the other scale" {
		t.Errorf("kept %+v", k.last())
	}
	k.says("w", "1", "1079.2", "d", "1", "1", "1423.5")
	if f, ok := k.last().(batch.PotWeighed); !ok || !strings.Contains(f.Finding, "as it should be") {
		t.Errorf("kept %+v", k.last())
	}
}

// TestRest answers after the pour: a look with its temperature, a loaf too soft,
// bars that are not as many as planned.
func TestRest(t *testing.T) {
	k := talks(t, memory.New()).starts().works("").waits(70*time.Minute).says("").hears("Look at the gel after 1 h", "2  Gelling")
	k.says("2 78")
	if f, ok := k.last().(batch.GelLooked); !ok || f.Look != batch.Gelling || f.Temperature != 78*quantity.Degree {
		t.Errorf("kept %+v", k.last())
	}
	k.waits(25 * time.Hour).says("").works("unmould/loaf 1").says("s").hears("Too soft").says("1")
	if _, ok := k.last().(batch.UnmouldPutOff); !ok {
		t.Errorf("kept %+v", k.last())
	}
	k.waits(13*time.Hour).says("").works("cut/loaf 1").says("7").hears("what became of the rest?", "say how that came").says("one end crumbled")
	if f, ok := k.last().(batch.BarsCut); !ok || f.Bars != 7 || f.Why != "one end crumbled" {
		t.Errorf("kept %+v", k.last())
	}
	k.says("c").hears("Skin reaction").says("3", "2 to the market stall").hears("The bars were not released", "say how that came").says("to be tried")
	if f, ok := k.last().(batch.BarsWent); !ok || f.Count != 2 {
		t.Errorf("kept %+v", k.last())
	}
}

// TestGelOfOneLoaf answers a look for one loaf, and then for the others in one go.
func TestGelOfOneLoaf(t *testing.T) {
	k := talks(t, memory.New()).starts().works("").waits(70 * time.Minute).says("").hears("of one alone: 2 loaf 1 78")
	k.says("6 loaf 9").hears("no loaf 9").says("6 loaf x").hears("is no loaf")
	k.says("6 loaf 2 84")
	if f, ok := k.last().(batch.GelLooked); !ok || len(f.Loaves) != 1 || f.Loaves[0] != 2 || f.Look != batch.Rising || f.Temperature != 84*quantity.Degree {
		t.Errorf("kept %+v", k.last())
	}
	k.hears("other loaves", "loaf 2 rising").says("1")
	if f, ok := k.last().(batch.GelLooked); !ok || len(f.Loaves) != 2 || f.Look != batch.NoGel {
		t.Errorf("kept %+v", k.last())
	}
	k.hears("It overheats: loaf 2. Unwrap at once")
}

// TestLoafIsWeighed takes a loaf out of its mould with its weight.
func TestLoafIsWeighed(t *testing.T) {
	k := talks(t, memory.New()).starts().works("").waits(25 * time.Hour).says("").works("unmould/loaf 1").says("910")
	if f, ok := k.last().(batch.Ticked); !ok || f.Mass != 910*quantity.Gram {
		t.Errorf("kept %+v", k.last())
	}
}

// TestPourIsWeighed keeps what went into a mould, asks about a slip, and takes a pour that
// nobody weighed.
func TestPourIsWeighed(t *testing.T) {
	k := talks(t, memory.New()).starts().works("sea/base/loaf 1/pour").hears("done, or g?").says("34").hears("typed 34")
	k.says("340").hears("340.0 g weighed into it")
	if f, ok := k.last().(batch.Ticked); !ok || f.Mass != 340*quantity.Gram {
		t.Errorf("kept %+v", k.last())
	}
	k.says("=")
	if f, ok := k.last().(batch.Ticked); !ok || f.Task != "sea/base/loaf 2/pour" || f.Mass != 0 {
		t.Errorf("kept %+v", k.last())
	}
}

// TestMoving goes to a stage and to a task of it, and back to what is next.
func TestMoving(t *testing.T) {
	k := talks(t, memory.New()).starts().works("sea/water").says("l").hears("2.1  Water into the lye jug: 216.2 g, open", "oils · sea, may be done now")
	k.says("g 4.2").hears("coconut oil: 214.2 g").says("=").hears("olive oil").says("g 99").hears("no stage 99").says("g 9").hears("! ")
	k.says("=").hears("waits for").says("g").hears("Water into the lye jug: 216.2 g").says("y").hears("Early, because").says("why all").hears("the reasons")
	k.says("p").hears("the plan of").says("r").hears("the record of 26K25A").says("?").hears("first aid", "leave").says("gull").hears("neither a figure nor a word")
}

// TestNotSaved holds a failed write to being said, and to the same fact, with the
// moment at which it was said, on a second try.
func TestNotSaved(t *testing.T) {
	k := talks(t, memory.New()).starts().works("sea/olive")
	before := len(k.store.Entries[code]) - 1
	k.store.Fail = errors.New("write bench.db: no space left on device")
	k.says("=").hears("NOT SAVED", "olive oil", "no space left").hearsNot("Kept").recorded(before)
	said := k.moment()
	k.waits(time.Minute).says("again").hearsNot("Kept").says("drop it").recorded(before)
	k.store.Fail = nil
	k.says("again").hears("Kept").recorded(before + 1)
	if e := k.store.Entries[code][before+1]; e.At != said {
		t.Errorf("kept as of %v, said at %v", e.At, said)
	}
	k.store.Fail = errors.New("read-only file system")
	k.says("=").hears("NOT SAVED").says("drop").hears("not in the record").recorded(before + 1)
}

// TestRefusedReworkIsNoFailedSave: what only the store can refuse is refused in words, and
// is not offered to be saved again.
func TestRefusedReworkIsNoFailedSave(t *testing.T) {
	k := talks(t, memory.New()).starts().says("c").hears("made of an earlier one").says("1", "999999Z too soft")
	k.hears("There is no batch 999999Z", "Nothing was kept.").hearsNot("NOT SAVED", "again saves").recorded(0)
	k.says("=").recorded(1)
}

// TestLeavingOutAndEnding needs reasons, and the word that abandons.
func TestLeavingOutAndEnding(t *testing.T) {
	k := talks(t, memory.New()).starts().says("x").hears("Say why").says("").hears("Nothing was kept").recorded(0).says("x", "no scale here").recorded(1)
	k.says("e").hears("Abandon this batch?").says("because").hears("Type the word abandon").says("abandon the pot seized")
	if k.last() != (batch.Closed{Reason: "the pot seized"}) {
		t.Errorf("kept %+v", k.last())
	}
	k.says("h", "c").hears("26K25A  Lighthouse at dusk").says("1").hears("This batch is closed").says("=").hears("nothing to do")
}

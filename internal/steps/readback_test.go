package steps_test

import (
	"fmt"
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/quantity"
	"bench/internal/readback"
	"bench/internal/work"
)

// TestReadBack: the ends of lye solution, split and pour, and the moment before
// the lye solution meets the oils, are read back line by line.
func TestReadBack(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/sodium hydroxide")
	alkali := b.task(t, "sea/sodium hydroxide")
	asked, reads := alkali.Target, alkali.Reads
	b.typed(t, "sea/sodium hydroxide", (asked + 5*g).At(reads))
	b.workTo(t, "lye/sea/read back")
	lines := readback.Of(b.plan(), "lye/sea/read back")
	if len(lines) != 3 || lines[0].What != "water" || lines[0].Off || lines[0].By == "" {
		t.Fatalf("%+v", lines)
	}
	if l := lines[1]; !l.Off || l.Asked != asked.At(reads) || l.Was != (asked+5*g).At(reads)+" g" {
		t.Errorf("%+v", l)
	}
	if _, ok := b.plan().Stage("lye/sea"); !ok || readback.Of(b.plan(), "sea/water") != nil {
		t.Error("a weighing is no pause point")
	}
	b.refuses(t, batch.Skipped{Task: "lye/sea/read back", Reason: "later"}, "another kind")
	if next, ok := judge.Following(b.plan(), "lye/sea/read back", b.moment()); !ok || next.ID != "dusk/water" || next.Title != "dusk: Water into lye jug 2" {
		t.Errorf("then %s, %q", next.ID, next.Title)
	}
	b.asked(t, "lye/sea/read back")
	b.refuses(t, batch.Ticked{Task: "lye/sea/read back"}, "done already")
	if s, _ := b.plan().Stage("lye/sea"); !s.Done {
		t.Error("the stage is not done")
	}
}

// TestPourReadBack names each loaf that was poured.
func TestPourReadBack(t *testing.T) {
	b := begin(harbour())
	for _, st := range b.plan().Stages {
		if st.Kind != work.Pour {
			continue
		}
		id := st.Tasks[len(st.Tasks)-1].ID
		b.workTo(t, id)
		lines := readback.Of(b.plan(), id)
		if len(lines) == 0 {
			t.Fatalf("%s: nothing is read back", id)
		}
		for n, l := range lines {
			if want := fmt.Sprintf("loaf %d", n+1); l.What != want || l.Was == "" || l.Asked == "" {
				t.Errorf("%s: %+v, want %s", id, l, want)
			}
		}
		return
	}
	t.Fatal("no pour")
}

// TestReadBackAnew: what is decided after a pause point is read back again.
func TestReadBackAnew(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "lye/sea/read back")
	b.asked(t, "lye/sea/read back")
	b.put(batch.Grossed{Task: "sea/lye jug/dissolved", Vessel: "lye jug 1", Gross: 500 * g, Tare: 212 * g, Reads: g})
	if task := b.task(t, "lye/sea/read back"); task.Done || !task.Open {
		t.Errorf("%+v", task)
	}
}

// TestOlderBatchHasNoPauses: a batch begun under earlier rules goes on as it
// began.
func TestOlderBatchHasNoPauses(t *testing.T) {
	old := harbour()
	old.PlanVersion = 2
	b := begin(old)
	for _, st := range b.plan().Stages {
		for _, task := range st.Tasks {
			if task.Do == work.Confirm || strings.HasSuffix(task.ID, "/read back") {
				t.Errorf("%s asks for %s", st.ID, task.ID)
			}
		}
	}
	if err := b.work(never); err != nil {
		t.Error(err)
	}
}

// TestSuperfatIsReadBackAsOff: a superfat that the weights put above the one asked for
// is neither marked as right nor said to be as asked.
func TestSuperfatIsReadBackAsOff(t *testing.T) {
	for off, want := range map[quantity.Mass]bool{0: false, -5 * g: true} {
		b := begin(harbour())
		b.workTo(t, "sea/sodium hydroxide")
		alkali := b.task(t, "sea/sodium hydroxide")
		b.typed(t, alkali.ID, (alkali.Target + off).At(alkali.Reads))
		b.workTo(t, "sea/meet")
		if l := readback.Of(b.plan(), "sea/meet")[0]; l.What != "superfat" || l.Off != want {
			t.Errorf("%v off: %+v", off, l)
		}
		if words := b.plan().Anew(); strings.Contains(words, "give the superfat that was asked for") == want || strings.Contains(words, "asked 5 %") != want {
			t.Errorf("%v off: %q", off, words)
		}
	}
}

// TestReadBackIsNet: what was weighed too much and taken out again, or was missing and
// added, is read back as what there is now, in one line that is not off.
func TestReadBackIsNet(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/sodium hydroxide")
	alkali := b.task(t, "sea/sodium hydroxide")
	b.typed(t, alkali.ID, (alkali.Target + 171*g/100).At(alkali.Reads))
	b.decide(t, alkali.ID, batch.TakeOut)
	b.workTo(t, "lye/sea/read back")
	net := func(at, what string, asked quantity.Mass, of string) {
		t.Helper()
		found := 0
		for _, l := range readback.Of(b.plan(), at) {
			if !strings.HasPrefix(l.What, what) {
				continue
			}
			if found++; l.Off || l.Was != l.Asked+" g" || !strings.HasPrefix(l.Asked, asked.At(g)[:2]) || !strings.Contains(l.By, of) {
				t.Errorf("%s: %+v", at, l)
			}
		}
		if found != 1 {
			t.Errorf("%s: %d lines of %s: %+v", at, found, what, readback.Of(b.plan(), at))
		}
	}
	net("lye/sea/read back", "sodium hydroxide", alkali.Target, "less 1.7 g out again")
	b.workTo(t, "sea/coconut")
	coconut := b.task(t, "sea/coconut")
	b.typed(t, "sea/coconut", (coconut.Target - 9200).At(coconut.Reads))
	b.decide(t, "sea/coconut", batch.AddOil)
	b.workTo(t, "sea/meet")
	net("sea/meet", "sodium hydroxide", alkali.Target, "less 1.7 g out again")
	net("sea/meet", "Coconut oil", coconut.Target, "and 9.2 g more")
}

package plain

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/front"
	"bench/internal/memory"
	"bench/internal/recipe"
	"bench/internal/steps"
	"bench/internal/timer"
)

// TestConfirmsTheScale: a batch that is opened again says what should stand on the
// scale. An empty line says that it does; a reading is held against the facts, and
// what is found of a pot is kept; words go on meaning what they mean.
func TestConfirmsTheScale(t *testing.T) {
	k := talks(t, memory.New()).starts().works("sea/olive").says("h", "1").hears("untared it reads 1079.2 g", "nothing if it is so")
	before := len(k.store.Entries[code]) - 1
	k.says("done", "=", "b 340", "x no scale").hears("First: an empty line").says("go 3").hears("First: an empty line", "nothing if it is so").recorded(before)
	k.says("n", "window open").recorded(before+1).says("1000").hears("should be 1079.2", "nothing if it is so").recorded(before + 2)
	if f, ok := k.last().(batch.PotWeighed); !ok || f.Gross != 1_000_000 {
		t.Errorf("kept %+v", k.last())
	}
	k.says("1079.2").recorded(before+3).hears("olive oil: 344.3 g", "olive oil, g> ").says("344.3").recorded(before + 4)
}

// TestKeepsWhatIsInAlready: an oil that a reading finds in the pot without a fact is
// offered to be kept; where it is not, its task says to pour none.
func TestKeepsWhatIsInAlready(t *testing.T) {
	for answer, kept := range map[string]bool{"": true, "no": false} {
		k := talks(t, memory.New()).starts().works("sea/olive").says("h", "1")
		n := len(k.store.Entries[code]) - 1
		k.says("1423.7").hears("olive oil is in already, by the weight of large pot: 344.5 g, asked 344.3. Pour none.", "nothing keeps 344.5 g, no if that is not so").says(answer)
		if w, ok := k.last().(batch.Weighed); ok != kept || kept && (w.Task != "sea/olive" || w.Mass != 344_500) {
			t.Errorf("%q: kept %+v", answer, k.last())
		}
		if !kept {
			k.recorded(n + 1).hears("WARNING: olive oil is in already, by the weight of large pot: pour none, type 344.5.")
		}
	}
}

// TestTakesBack takes the last entry back, or one by its number, with the reason;
// what others were built on is refused.
func TestTakesBack(t *testing.T) {
	k := talks(t, memory.New()).starts().works("sea/melt")
	last := len(k.store.Entries[code])
	k.says("takeback", "").hears("Nothing was kept").says("< 1").hears("rests on the recipe").says("< 999").hears("no such entry")
	k.says("< wrong pot").hears("Kept: ", "taken back no.")
	if f, ok := k.last().(batch.Withdrawn); !ok || f.Seq != last || f.Reason != "wrong pot" {
		t.Errorf("kept %+v", k.last())
	}
	k.hears("coconut oil, g> ")
	k.says(fmt.Sprintf("< %d", last)).hears("!").says("u last").hears("shea butter").says("")
}

// TestRings rings for what is due as its priority asks, and for nothing in silence
// or, of what can wait, in quiet hours; the prompt is not said again for a bell.
func TestRings(t *testing.T) {
	for _, c := range []struct {
		name   string
		manner recipe.Manner
		want   int
	}{
		{"sound", recipe.Manner{}, 3},
		{"silent", recipe.Manner{Sound: recipe.Off}, 0},
		{"quiet hours", recipe.Manner{Quiet: timer.Hours{From: 8 * time.Hour, To: 15 * time.Hour}}, 0},
	} {
		rung := make(chan struct{}, 10)
		k := talks(t, memory.New(), func(d *Deps) {
			d.Bell, d.Manner = func() { rung <- struct{}{} }, func() recipe.Manner { return c.manner }
		})
		k.starts().works("dusk/shea").waits(6 * time.Minute)
		k.wakes()
		k.listens()
		k.hears("ALARM: ")
		for n := range c.want {
			if n > 0 {
				k.waits(time.Minute).wakes()
			}
			select {
			case <-rung:
			case <-time.After(patience):
				t.Fatalf("%s: bell %d did not ring", c.name, n+1)
			}
		}
		if k.says("a").hears("Kept: "); len(rung) > 0 || strings.Count(k.all(), "ALARM") != 1 {
			t.Errorf("%s: %d bells more than %d, and heard:\n%s", c.name, len(rung), c.want, k.heard())
		}
	}
}

// TestSharedVessels: a jug that holds another batch's lye is said, and asked about
// before anything is kept as gone into it.
func TestSharedVessels(t *testing.T) {
	k := talks(t, memory.New()).starts().works("sea/castor").says("h")
	k.says("2", "start").hears("Begun: batch 26K25B").says("g")
	for range 40 {
		if strings.Contains(k.heard(), "Water into the lye jug") {
			break
		}
		k.says("=")
	}
	const full = "lye jug A holds the sea lye solution of batch 26K25A"
	n := len(k.store.Entries["26K25B"])
	k.hears("WARNING: "+full).says("=").hears("Is the vessel free?", full[1:]).says("").hears("Nothing was kept.")
	if got := len(k.store.Entries["26K25B"]); got != n {
		t.Fatalf("%d facts were kept, not %d", got, n)
	}
	k.says("=", "took the spare jug").hears("no vessel called").says("lye jug B").hears("holds the dusk lye solution of batch 26K25A")
	k.says("spare jug 214.0 g").hears("Kept: ", "spare jug taken instead of lye jug A for the sea lye solution, 214 g empty", "Vessel: spare jug", "vessel 214.0").says("=").hearsNot("Is the vessel free?")
	if got := len(k.store.Entries["26K25B"]); got != n+2 {
		t.Errorf("%d facts were kept, not %d:\n%s", got, n+2, k.heard())
	}
}

// TestTellsWhatIsInUse: before a batch begins it is said which of its vessels and moulds
// another has; a practice has the bench to itself.
func TestTellsWhatIsInUse(t *testing.T) {
	s := memory.New()
	k := talks(t, s).starts().works("sea/castor").says("h", "2")
	k.hears("! WARNING: lye jug A holds the sea lye solution of batch 26K25A", "3 of 3 moulds called harbour loaf are in use for batch 26K25A").says("", "q")
	k = talks(t, s, func(d *Deps) { d.Practice = front.Practice{Speed: func() int { return 1 }, Turn: func() {}} })
	k.says("2").hears("the plan of").hearsNot("WARNING", "in use")
}

// TestOpensByCode opens a batch by its code, in either case of letters.
func TestOpensByCode(t *testing.T) {
	k := talks(t, memory.New()).starts().says("h").says("26k25b").hears("Type the number or code")
	k.says("26k25a").hears("Batch 26K25A", "Where you were")
}

// TestNotYetWhileLyeIsOpen: the hydroxide stays out while another batch has lye open,
// until somebody answers for it.
func TestNotYetWhileLyeIsOpen(t *testing.T) {
	s := memory.New()
	k := talks(t, s).starts().works("clean up/hydroxide").says("h")
	k.says("2", "start").hears("Begun: batch 26K25B")
	for _, f := range []batch.Fact{
		batch.Weighed{Task: "sea/water", Target: 216_200, Mass: 216_200, How: batch.AtTarget}, batch.Ticked{Task: steps.DissolveID("sea")},
	} {
		if _, err := s.Append("26K25B", f, k.moment()); err != nil {
			t.Fatal(err)
		}
	}
	n := len(s.Entries[code])
	k.says("h", code).says("").hears("batch 26K25B has lye open").says("=").hears("Not yet?").says("").hears("Nothing was kept.")
	if got := len(s.Entries[code]); got != n {
		t.Errorf("%d facts were kept, not %d", got, n)
	}
	k.says("=", "it is lidded", "=")
	if got := len(s.Entries[code]); got != n+2 {
		t.Errorf("%d facts were kept, not %d:\n%s", got, n+2, k.heard())
	}
}

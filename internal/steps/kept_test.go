package steps_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/judge"
	"bench/internal/recipe"
	"bench/internal/sample"
	"bench/internal/uses"
	"bench/internal/work"
)

// leavesOut weighs 1.71 g too much of a sodium hydroxide and takes that out again; it
// gives the cup in which that stands.
func leavesOut(t *testing.T, b *bencher, alkali string) (cup string) {
	t.Helper()
	b.workTo(t, alkali)
	b.typed(t, alkali, (b.task(t, alkali).Target + 171*g/100).At(g/100))
	b.decide(t, alkali, batch.TakeOut)
	out := b.task(t, alkali+"/out")
	b.asked(t, out.ID)
	return out.Vessel
}

// TestKeptAlkaliKeepsItsCup: a cup in which alkali is kept that came out again is handed
// out for nothing else, and is told to other batches, until that is put away. Each of two
// has its own.
func TestKeptAlkaliKeepsItsCup(t *testing.T) {
	for name, c := range map[string]struct {
		control recipe.Control
		alkali  []string
	}{
		"six cups": {sample.Control(t, "lighthouse-at-dusk.yaml", 3), []string{"sea/sodium hydroxide", "dusk/sodium hydroxide"}},
		"too few":  {harbour(), []string{"sea/sodium hydroxide", "dusk/sodium hydroxide"}},
		"one":      {sample.Control(t, "tide-lines.yaml", 3), []string{"tide/sodium hydroxide"}},
	} {
		b, full := begin(c.control), map[string]string{}
		for _, alkali := range c.alkali {
			cup := leavesOut(t, b, alkali)
			if full[cup] != "" {
				t.Fatalf("%s: %s is given out twice", name, cup)
			}
			full[cup] = alkali + "/out"
		}
		for range 400 {
			p := b.plan()
			id, _ := p.Next(b.moment())
			if id == "clean up/hydroxide" {
				break
			}
			task := b.task(t, id)
			if of := full[task.Vessel]; of != "" {
				t.Errorf("%s: %s is weighed into %s, in which there is alkali", name, id, task.Vessel)
			}
			for cup := range full {
				o, held := uses.Holds(cup, p.Occupies("A"))
				if !held || !o.Alkali {
					t.Fatalf("%s at %s: another batch is not told of %s: %+v", name, id, cup, o)
				}
				f := batch.VesselReplaced{Vessel: task.Vessel, By: cup, Tare: 25 * g}
				if err := judge.Allows(p, f, b.moment()); task.Do == work.Weigh && !strings.Contains(fmt.Sprint(err), cup+" holds the sodium hydroxide, out again") {
					t.Fatalf("%s at %s: %s may be taken for %s: %v", name, id, cup, task.Vessel, err)
				}
			}
			if task.Do == work.Look {
				b.wait(1e12)
			}
			b.asked(t, id)
		}
		b.asked(t, "clean up/hydroxide")
		for range full {
			id, _ := b.plan().Next(b.moment())
			task := b.task(t, id)
			if !strings.HasPrefix(id, "clean up/put away/") || !strings.Contains(task.Title, "1.71 g of sodium hydroxide in "+cupOf(full, id)) {
				t.Fatalf("%s: %s: %q", name, id, task.Title)
			}
			b.asked(t, id)
			if o, held := uses.Holds(cupOf(full, id), b.plan().Occupies("A")); held {
				t.Errorf("%s: put away, and %+v", name, o)
			}
		}
	}
}

func cupOf(full map[string]string, putAway string) string {
	for cup, out := range full {
		if putAway == "clean up/put away/"+out {
			return cup
		}
	}
	return fmt.Sprintf("no cup of %v", full)
}

// TestKeptAlkaliLeftThere: a reason for not putting it away does not empty the cup; nothing
// is asked for where nothing came out; the end of the clean-up closes a batch of before.
func TestKeptAlkaliLeftThere(t *testing.T) {
	b := begin(harbour())
	cup := leavesOut(t, b, "sea/sodium hydroxide")
	const away = "clean up/put away/sea/sodium hydroxide/out"
	b.put(batch.Skipped{Task: away, Reason: "it may stand there"})
	if _, held := uses.Holds(cup, b.plan().Occupies("A")); !held {
		t.Error("left there, and the cup is free")
	}
	before := begin(harbour())
	leavesOut(t, before, "sea/sodium hydroxide")
	before.put(batch.Ticked{Task: "clean up/gloves"})
	if task := before.task(t, away); !task.Done {
		t.Error("a batch that is cleaned up asks again")
	}
	for _, st := range begin(harbour()).plan().Stages {
		if slices.ContainsFunc(st.Tasks, func(t work.Task) bool { return strings.HasPrefix(t.ID, "clean up/put away") }) {
			t.Error("nothing came out, and it is asked to be put away")
		}
	}
}

package steps_test

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/sample"
	"bench/internal/uses"
)

// TestOccupies: a jug is taken from its water until the lye meets the oils, the pot
// from its first oil until the last pour, and dry alkali keeps its cup. What clings to
// them is told until the clean-up.
func TestOccupies(t *testing.T) {
	has := func(b *bencher, what string) bool {
		return slices.ContainsFunc(b.plan().Occupies("A"), func(o uses.Occupied) bool {
			return o.Batch == "A" && o.Left == "" && strings.Contains(o.Vessel+" holds "+o.What, what)
		})
	}
	b := begin(harbour())
	if list := b.plan().Occupies("A"); len(list) > 0 {
		t.Fatalf("nothing is in anything, and %+v", list)
	}
	for _, c := range []struct{ until, taken, free string }{
		{"sea/sodium hydroxide", "lye jug 1 holds the water of the sea lye", "pot 1"},
		{"sea/dissolve", "holds the sodium hydroxide for the sea lye", "lye solution"},
		{"sea/castor", "lye jug 1 holds the sea lye solution", "sodium hydroxide"},
		{"sea/castor", "pot 1 holds the sea oils", "batter"},
		{"sea/trace/emulsion", "pot 1 holds the sea batter", "lye jug 1"},
	} {
		b.workTo(t, c.until)
		if !has(b, c.taken) || has(b, c.free) {
			t.Errorf("at %s: %+v, wanted %q and not %q", c.until, b.plan().Occupies("A"), c.taken, c.free)
		}
	}
	b.workTo(t, "clean up/hydroxide")
	list, left := b.plan().Occupies("A"), map[string]string{}
	for _, o := range list {
		left[o.Vessel] = o.Left
	}
	want := map[string]string{
		"lye jug 1": "rinsed", "lye jug 2": "rinsed", "pot 1": "wiped out", "pot 2": "wiped out",
		"jug 1": "wiped out", "jug 2": "wiped out", "jug 3": "wiped out", "loaf mould": "",
	}
	if !maps.Equal(left, want) || list[len(list)-1].Moulds != 3 {
		t.Errorf("all is in the moulds, and %+v", list)
	}
	if err := b.work(never); err != nil {
		t.Fatal(err)
	}
	b.wait(48 * time.Hour)
	b.workTo(t, "cut/side")
	if list := b.plan().Occupies("A"); len(list) > 0 {
		t.Errorf("all is out of the moulds, and %+v", list)
	}
}

// TestShared: what a task fills is another batch's, until somebody answers for it;
// a note that was taken back answers for nothing.
func TestShared(t *testing.T) {
	a, b := begin(harbour()), begin(harbour())
	a.workTo(t, "sea/castor")
	others := a.plan().Occupies("26K25A")
	const full = "lye jug 1 holds the sea lye solution of batch 26K25A"
	b.workTo(t, "sea/water")
	if got := b.plan().Shared("sea/water", others); got != full {
		t.Fatalf("%q", got)
	}
	into := 0
	for _, st := range b.plan().Stages {
		for _, task := range st.Tasks {
			if task.Into != "lye jug 1" || task.Vessel == task.Into {
				continue
			}
			if into++; b.plan().Shared(task.ID, others) != full {
				t.Errorf("%s goes from %s into %s", task.ID, task.Vessel, task.Into)
			}
		}
	}
	if into == 0 {
		t.Error("nothing is poured into the jug")
	}
	if b.plan().Shared("sea/water", nil) != "" || b.plan().State().Answered(full) {
		t.Error("nobody else is at work, and nobody answered")
	}
	for _, answer := range []batch.Fact{
		batch.SharedAnswered{Shared: full, Answer: "emptied"},
		batch.Noted{Stage: "lye/sea", Text: full + ": took the spare one"}, // As programs before that fact kept it.
	} {
		b := begin(harbour())
		b.put(answer)
		if !b.plan().State().Answered(full) || b.plan().State().Answered("pot 1 holds the sea oils of batch 26K25A") {
			t.Errorf("%T: the answer is for the jug, and for nothing else", answer)
		}
		b.put(batch.Withdrawn{Seq: 2, Reason: "it was not"})
		if b.plan().State().Answered(full) {
			t.Errorf("%T: it was taken back, and answers", answer)
		}
	}
}

// TestLyeOpenElsewhere: the hydroxide is not put away while another batch wants it dry, nor
// are the gloves while another has lye open. What is cleaned up is not what another holds.
func TestLyeOpenElsewhere(t *testing.T) {
	a, b := begin(harbour()), begin(harbour())
	a.workTo(t, "clean up/hydroxide")
	p := a.plan()
	for _, c := range []struct {
		at   string
		says map[string]string
	}{
		{"sea/dissolve", map[string]string{
			"clean up/hydroxide": "batch 26K25B has lye open: alkali cup holds the sodium hydroxide for the sea lye", "clean up/gloves": "batch 26K25B has lye open",
			"clean up/jugs": "lye jug 1 holds the water of the sea lye of batch 26K25B", "clean up/wipe": "",
		}},
		{"sea/castor", map[string]string{
			"clean up/hydroxide": "", "clean up/gloves": "batch 26K25B has lye open: lye jug 1 holds the sea lye solution",
			"clean up/jugs": "lye jug 2 holds the dusk lye solution of batch 26K25B", "clean up/wipe": "pot 1 holds the sea oils of batch 26K25B",
		}},
	} {
		b.workTo(t, c.at)
		for task, want := range c.says {
			if got := p.Shared(task, b.plan().Occupies("26K25B")); !strings.Contains(got, want) || want == "" && got != "" {
				t.Errorf("at %s: %s: %q, not %q", c.at, task, got, want)
			}
		}
	}
	if b.plan().WantsDry() || !begin(harbour()).plan().WantsDry() {
		t.Error("dry hydroxide is wanted until the last lye is made")
	}
	const wanted = "hydroxide is still wanted for batch 26K25C and 26K25D"
	if got := p.Shared("clean up/hydroxide", []uses.Occupied{uses.Wanting("26K25C"), uses.Wanting("26K25D")}); got != wanted {
		t.Errorf("%q", got)
	}
	b.workTo(t, "sea/trace/emulsion")
	if got := p.Shared("clean up/hydroxide", b.plan().Occupies("26K25B")); strings.Contains(got, "sea") {
		t.Errorf("the lye is in the oils, and %q", got)
	}
}

// TestRawBatterIsTold: what another batch left in a vessel and nobody wiped out is told
// before anything goes into it, until that batch's clean-up; the batch itself wipes it out
// between its layers, and says so there.
func TestRawBatterIsTold(t *testing.T) {
	a, b := begin(harbour()), begin(harbour())
	a.workTo(t, "clean up/hydroxide")
	for _, c := range []struct{ done, task, want string }{
		{"", "sea/shea", "pot 1 was not wiped out yet: it holds raw sea batter of batch A"},
		{"", "sea/water", "lye jug 1 was not rinsed yet: it holds what is left of the sea lye solution of batch A"},
		{"clean up/jugs", "sea/water", ""},
		{"", "sea/shea", "pot 1 was not wiped out yet: it holds raw sea batter of batch A"},
		{"clean up/wipe", "sea/shea", ""},
	} {
		if c.done != "" {
			a.put(batch.Ticked{Task: c.done})
		}
		if got := b.plan().Shared(c.task, a.plan().Occupies("A")); got != c.want {
			t.Errorf("%s: %q, not %q", c.task, got, c.want)
		}
	}
	away := begin(harbour())
	away.put(batch.Skipped{Task: "sea/sea/loaf 3", Reason: "too little batter"})
	for id := 1; id <= 3; id++ {
		away.put(batch.Ticked{Task: fmt.Sprintf("sea/loaf %d/pour", id)})
	}
	if o, held := uses.Holds("jug 3", away.plan().Occupies("A")); held {
		t.Errorf("nothing was ever in it, and %+v", o)
	}
}

// TestOccupiesCups: colours that were wetted and scents that were weighed out keep their
// cups until they go in.
func TestOccupiesCups(t *testing.T) {
	for _, c := range []struct {
		b            *bencher
		waiting, out string
		full         map[string]string
	}{
		{begin(harbour()), "dusk/combine", "cover/cover", map[string]string{"cup 1": "the evening smoke for dusk", "cup 3": "the evening smoke for dusk"}},
		{begin(sample.Control(t, "tide-lines.yaml", 1)), "tide/combine", "cover/cover", map[string]string{"cup 1": "the ultramarine blue for low water"}},
	} {
		c.b.workTo(t, c.waiting)
		for vessel, what := range c.full {
			if o, _ := uses.Holds(vessel, c.b.plan().Occupies("A")); o.What != what {
				t.Errorf("%s holds %q, not %q: %+v", vessel, o.What, what, c.b.plan().Occupies("A"))
			}
		}
		c.b.workTo(t, c.out)
		for vessel := range c.full {
			if o, holds := uses.Holds(vessel, c.b.plan().Occupies("A")); holds {
				t.Errorf("%s still holds %s", vessel, o.What)
			}
		}
	}
}

// TestOccupiesWhatIsLeft: lye that was not poured keeps its jug, open until it is lidded,
// and a small solution keeps its cup until it is in the jug.
func TestOccupiesWhatIsLeft(t *testing.T) {
	b := begin(harbour())
	b.workTo(t, "sea/sodium hydroxide")
	b.typed(t, "sea/sodium hydroxide", "199.1")
	b.decide(t, "sea/sodium hydroxide", batch.PourPart)
	b.workTo(t, "sea/keep lye")
	rest := uses.Occupied{Batch: "A", Vessel: "lye jug 1", What: "the rest of the sea lye solution", Alkali: true, Burns: true}
	if list := b.plan().Occupies("A"); !slices.Contains(list, rest) {
		t.Errorf("%+v", list)
	}
	b.asked(t, "sea/keep lye")
	rest.Alkali = false
	if list := b.plan().Occupies("A"); !slices.Contains(list, rest) {
		t.Errorf("lidded: %+v", list)
	}
	b.workTo(t, "clean up/wipe")
	if _, holds := uses.Holds("lye jug 1", b.plan().Occupies("A")); holds {
		t.Error("it was rinsed")
	}
	b = oliveOver(t)
	b.asked(t, "sea/water/top-up")
	cup := b.task(t, "sea/water/top-up").Vessel
	more := b.task(t, "sea/sodium hydroxide/top-up")
	b.asked(t, more.ID)
	for _, vessel := range []string{cup, more.Vessel} {
		if _, holds := uses.Holds(vessel, b.plan().Occupies("A")); !holds {
			t.Errorf("%s holds a part of the small solution: %+v", vessel, b.plan().Occupies("A"))
		}
	}
	b.asked(t, "sea/dissolve more")
	for _, o := range b.plan().Occupies("A") {
		if o.Vessel == cup || o.Vessel == more.Vessel {
			t.Errorf("poured into the jug, and %+v", o)
		}
	}
}

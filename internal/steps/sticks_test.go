package steps_test

import (
	"math"
	"strings"
	"testing"
	"time"

	"bench/internal/batch"
	"bench/internal/cut"
	"bench/internal/quantity"
	"bench/internal/recipe"
	"bench/internal/steps"
	"bench/internal/uses"
)

// withSticks gives the harbour with its moons cut from sticks of 150 mm.
func withSticks(t *testing.T, sticks int) recipe.Control {
	t.Helper()
	c := harbour()
	order := c.Cutting.Order(c.Mould.Along(), c.Loaves, 1)
	order.Sticks = []cut.Stick{{Lot: "M-12", Length: 150 * quantity.Millimetre, Count: sticks}}
	plan, err := cut.Solve(order)
	if err != nil {
		t.Fatal(err)
	}
	c.Sticks = []recipe.StickPlan{{Stick: "moon", Embeds: []recipe.StickEmbed{{Layer: "sea", Embed: "moon"}}, Plan: plan}}
	return c
}

func TestSticksAreSetOutCutAndLaid(t *testing.T) {
	c := withSticks(t, 12)
	p := steps.Of(batch.State{Control: c})
	if _, _, ok := p.Task("set out/sea/moon"); ok {
		t.Error("the moon is asked for by length as well")
	}
	if _, _, ok := p.Task("set out/sea/boat"); !ok {
		t.Error("the boat, of which no stick is planned, is not asked for")
	}
	first, _, ok := p.Task("set out/moon/stick 1")
	piece := c.Sticks[0].Plan.Sticks[0].Pieces[0]
	if !ok || !strings.Contains(first.Title, "lot M-12: cut 1a "+piece.Length.String()) {
		t.Errorf("%+v", first)
	}
	for loaf, placed := range c.Sticks[0].Plan.Loaves {
		task, _, ok := p.Task(steps.EmbedTask("sea", loaf, "moon"))
		if !ok || !strings.HasPrefix(task.Hint, "From the marked end: ") {
			t.Fatalf("%+v", task)
		}
		at := 0
		for _, piece := range placed.Rows[0].Pieces {
			next := strings.Index(task.Hint[at:], piece.Label()+" "+piece.Length.String())
			if next < 0 {
				t.Errorf("%q does not name %s in its order", task.Hint, piece.Label())
			}
			at += max(0, next)
		}
	}
}

func TestALoafWithoutSticksIsSaid(t *testing.T) {
	p := steps.Of(batch.State{Control: withSticks(t, 4)})
	task, _, _ := p.Task(steps.EmbedTask("sea", 2, "moon"))
	if !strings.HasPrefix(task.Hint, "No stick is planned for this loaf.") {
		t.Errorf("%q", task.Hint)
	}
}

// TestLaid: what an embed brings in is its pieces, of their lot; where no stick is planned,
// a length of the mould of the dough's lot. A cylinder holds pi by its radius squared by
// its length.
func TestLaid(t *testing.T) {
	c := withSticks(t, 12)
	in, ok := steps.LaidBy(c, steps.EmbedTask("sea", 1, "moon"))
	if want := c.Mould.Along(); !ok || in.Lot != "M-12" || in.Stick != "moon" || in.Loaf != 2 || in.Length != want {
		t.Errorf("%+v", in)
	}
	for i := range c.Sticks[0].Plan.Sticks {
		c.Sticks[0].Plan.Sticks[i].Lot, c.Sticks[0].Plan.Sticks[i].Fresh = "", true
	}
	c.Materials = append(c.Materials, recipe.Material{Name: "harbour dough", Lot: "HD-0012"})
	for i, e := range c.Recipe.Layers[0].Embeds {
		if e.Name == "moon" {
			e.Dough, e.Shape, e.Width = "harbour dough", recipe.Circle, 20*quantity.Millimetre
			c.Recipe.Layers[0].Embeds[i] = e
		}
	}
	in, _ = steps.LaidBy(c, steps.EmbedTask("sea", 1, "moon"))
	ml := math.Pi * 100 * in.Length.Millimetres() / 1000
	if in.Lot != "HD-0012" || in.Dough != "harbour dough" || math.Abs(in.Mass.Grams()-ml*recipe.DefaultDoughDensity) > 0.01 {
		t.Errorf("%+v", in)
	}
	for _, task := range []string{"set out/moon/stick 1", "sea/loaf 1", "sea/loaf 1/star", "sky/loaf 1/moon", "sea/loaf x/moon"} {
		if in, ok := steps.LaidBy(c, task); ok {
			t.Errorf("%s: %+v", task, in)
		}
	}
}

// TestSticksAreUsedOnce: of six sticks that were listed two went into another batch; a batch
// that wants six asks at each of them, until somebody says what they are; one that wants
// four does not. What another batch under way cuts meanwhile counts as well.
func TestSticksAreUsedOnce(t *testing.T) {
	kind := recipe.StickStock{Lot: "M-12", Length: 150 * quantity.Millimetre, Listed: 12, There: 10}
	first := begin(withSticks(t, 12))
	wanted := 0
	for _, s := range first.state.Control.Sticks[0].Plan.Sticks {
		if s.Lot == "M-12" {
			wanted++
		}
	}
	b := begin(withSticks(t, 12))
	task := "set out/moon/stick 1"
	shared := func(others []uses.Occupied) string { return b.plan().Shared(task, others) }
	if words := shared(nil); words != "" {
		t.Errorf("nothing is known of any: %q", words)
	}

	first.state.Control.Sticks[0].Stock = []recipe.StickStock{kind}
	first.now = b.now.Add(time.Hour)
	first.asked(t, task)
	first.put(batch.Skipped{Task: "set out/moon/stick 2", Reason: "it broke"})
	used := steps.SticksUsed("26C02A", first.state)
	if len(used) != wanted-1 || used[0].Cut.IsZero() || used[0].There != 10 || used[0].Lot != "M-12" || !used[1].Cut.IsZero() || used[1].N != 3 {
		t.Fatalf("%+v", used)
	}
	others := first.plan().Occupies("26C02A")
	if words := shared(others); !strings.HasPrefix(words, "moon of 150 mm, lot M-12: stick 1 went into batch 26C02A on 2 Mar") {
		t.Errorf("cut meanwhile: %q of %+v", words, others)
	}
	b.now = b.now.Add(24 * time.Hour)
	later := begin(withSticks(t, 12))
	later.now = b.now
	later.state = batch.State{}
	later.put(batch.Started{Control: withSticks(t, 12)})
	if words := later.plan().Shared(task, others); words != "" {
		t.Errorf("what was cut before it began its own list knows: %q", words)
	}

	stock := kind
	stock.There, stock.Taken = wanted-1, used[:1]
	c := withSticks(t, 12)
	c.Sticks[0].Stock = []recipe.StickStock{stock}
	b = begin(c)
	words := shared(nil)
	if !strings.Contains(words, "stick 1 went into batch 26C02A") || b.plan().Shared("set out/scales", nil) != "" {
		t.Errorf("%q", words)
	}
	b.put(batch.SharedAnswered{Shared: words, Answer: "new ones"})
	if used := steps.SticksUsed("26C03A", b.state); used[0].There != 12 {
		t.Errorf("somebody looked: %+v", used[0])
	}
	c.Sticks[0].Stock[0].There = wanted
	b = begin(c)
	if words := shared(nil); words != "" {
		t.Errorf("there are enough: %q", words)
	}
	closed := b.state.Apply(batch.Entry{Seq: 2, Fact: batch.Closed{Reason: "fog"}})
	if used := steps.SticksUsed("26C04A", closed); len(used) != 0 {
		t.Errorf("it was closed before it took any: %+v", used)
	}
}

package steps_test

import (
	"strings"
	"testing"

	"bench/internal/batch"
	"bench/internal/calc"
	"bench/internal/recipe"
	"bench/internal/recipe/check"
	"bench/internal/recipe/read"
	"bench/internal/sample"
	"bench/internal/steps"
	"bench/internal/work"
)

// written gives the control recipe of a batter and its layers, with materials
// laid over the built-in workshop.
func written(t testing.TB, materials, recipeRest string, loaves int) recipe.Control {
	t.Helper()
	own, _, problems := read.Workshop("own.yaml", []byte("bench: 1\nworkshop: Mole sheds\nmaterials:\n"+materials))
	w := recipe.Merge(sample.Workshop(t), own)
	text := "bench: 1\nrecipe: Pier\n" + recipeRest
	r, _, more := read.CheckedRecipe("pier.yaml", []byte(text), w)
	if problems = append(problems, more...); read.Failed(problems) {
		t.Fatal(problems)
	}
	c, last := check.Resolve(r, text, w, loaves)
	if c.Loaves == 0 {
		t.Fatal(last)
	}
	return c
}

const (
	blendOnHand = "  - { name: mole blend, kind: premelted oils, lot: MB-3, made: 2 March, contains: { coconut: 60 %, shea butter: 40 % } }\n" +
		"  - { name: sea buckthorn oil, kind: oil, lot: 7-051, sv: 133 to 143 mg/g NaOH }\n"
	pierBatter = "batters:\n  - name: sea\n    oils: { olive: 50 %, coconut: 30 %, shea: 15 %, sea buckthorn oil: 5 % }\n"
	pierLayer  = "layers:\n  - { name: base, surface: 50 mm }\n"
)

// A blend is one weighing on the list, with its own lot; superfat and band are
// those of its oils, each oil once, however many weighings bring it.
func TestBlendOnTheBench(t *testing.T) {
	plain := steps.Of(batch.State{Control: written(t, blendOnHand, pierBatter+pierLayer, 1)}).Batters[0]
	c := written(t, blendOnHand, pierBatter+"    premelted: mole blend\n"+pierLayer, 1)
	b := begin(c)
	if err := b.work(func(task work.Task) bool { return task.ID == "sea/combine" }); err != nil {
		t.Fatal(err)
	}
	got := b.plan().Batters[0]
	names := ""
	for _, o := range got.Oils {
		names += o.Name + ", "
	}
	if names != "mole blend, coconut oil, olive oil, sea buckthorn oil, " || b.task(t, "sea/mole blend").Lot != "MB-3" {
		t.Errorf("weighed: %s lot %s", names, b.task(t, "sea/mole blend").Lot)
	}
	if len(got.Account.Oils) != 4 {
		t.Errorf("the superfat rests on %d oils: %+v", len(got.Account.Oils), got.Account.Oils)
	}
	closeTo(t, "alkali", got.Alkali[0].Mass.Grams(), plain.Alkali[0].Mass.Grams(), 0.11)
	closeTo(t, "superfat", got.Superfat.Percent, plain.Superfat.Percent, 0.06)
	closeTo(t, "low end", got.Superfat.Low, plain.Superfat.Low, 0.1)
	closeTo(t, "high end", got.Superfat.High, plain.Superfat.High, 0.1)
	var own []string
	for _, o := range got.Own {
		own = append(own, o.Name+": "+o.Value+", "+o.From)
	}
	if s := strings.Join(own, "; "); !strings.Contains(s, "mole blend: premelted oils, 60 % coconut oil, 40 % shea butter, made 2 March") ||
		!strings.Contains(s, "sea buckthorn oil: saponification value 193.6 mg/g (186.6 to 200.6), your certificate of lot 7-051") {
		t.Errorf("the maker's own values: %s", s)
	}
	if err := b.work(never); err != nil {
		t.Error(err)
	}
}

// Too much of a blend is too much of each of its oils: the alkali follows by
// their values, worked out here oil by oil.
func TestBlendOffSpreadsOverItsOils(t *testing.T) {
	c := written(t, blendOnHand, pierBatter+"    premelted: mole blend\n"+pierLayer, 1)
	b := begin(c)
	b.finish(t, "set out")
	task := b.task(t, "sea/mole blend")
	over := 50 * g
	b.typed(t, task.ID, (task.Target + over).At(task.Reads))
	d, ok := deviationOf(b.plan(), task.ID)
	if !ok || !strings.Contains(d.Words, "mole blend 50.0 g over") {
		t.Fatalf("%+v", d)
	}
	if s := offered(b.plan().Ways(d)); s != "carry on*, in proportion" {
		t.Errorf("offered: %s", s)
	}
	before := steps.Of(batch.State{Control: c}).Batters[0].Alkali[0].Mass
	b.decide(t, task.ID, batch.CarryOn)
	more := (b.plan().Batters[0].Alkali[0].Mass - before).Grams()
	koh := 50 * (0.6*256.5 + 0.4*177.5) / 1000 // Codex CXS 210 and CXS 325R, midpoints, second-hand.
	closeTo(t, "more alkali", more, koh*0.95*calc.MolarMassNaOH/calc.MolarMassKOH, 0.11)
}

// What is missing of a blend is added as blend.
func TestBlendMissingIsAdded(t *testing.T) {
	b := begin(written(t, blendOnHand, pierBatter+"    premelted: mole blend\n"+pierLayer, 1))
	b.workTo(t, "sea/mole blend")
	task := b.task(t, "sea/mole blend")
	b.typed(t, task.ID, (task.Target - 40*g).At(task.Reads))
	way := b.decide(t, task.ID, batch.AddOil)
	if !strings.Contains(way.Title, "40.0 g of mole blend") {
		t.Error(way.Title)
	}
	if err := b.work(func(task work.Task) bool { return task.ID == "sea/combine" }); err != nil {
		t.Fatal(err)
	}
	got := b.plan().Batters[0]
	closeTo(t, "superfat", got.Superfat.Percent, 5, 0.1)
	if len(got.Account.Oils) != 4 {
		t.Errorf("the added blend is counted by itself: %+v", got.Account.Oils)
	}
}
